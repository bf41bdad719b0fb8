//! A file replaced as a whole: at every instant it is the old one or the new one.

use std::ffi::OsString;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Replaces what is in a file, or makes it. Its permissions stay; where it is a link, the file it
/// leads to is replaced. The new bytes are on the disk when this returns.
///
/// # Errors
///
/// Where the system refuses; then the file is as it was.
pub fn replace(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let target = match path.canonicalize() {
        Ok(target) => target,
        Err(error) if error.kind() == io::ErrorKind::NotFound => path.to_owned(),
        Err(error) => return Err(error),
    };
    let (beside, file) = create_beside(&target)?;
    let written = fill(file, &target, bytes).and_then(|()| fs::rename(&beside, &target));
    if let Err(error) = written {
        // What is left over does no harm; the first error is the one to tell.
        let _ = fs::remove_file(&beside);
        return Err(error);
    }
    sync_folder(&target)
}

fn fill(mut file: File, target: &Path, bytes: &[u8]) -> io::Result<()> {
    if let Ok(old) = target.metadata() {
        file.set_permissions(old.permissions())?;
    }
    file.write_all(bytes)?;
    file.sync_all()
}

/// A new file beside the target, under a name that nothing has.
fn create_beside(target: &Path) -> io::Result<(PathBuf, File)> {
    let name = target.file_name().unwrap_or_default();
    for number in 0..100 {
        let mut beside = OsString::from(".");
        beside.push(name);
        beside.push(format!(".new-{}-{number}", std::process::id()));
        let beside = target.with_file_name(beside);
        match OpenOptions::new()
            .write(true)
            .create_new(true)
            .open(&beside)
        {
            Ok(file) => return Ok((beside, file)),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
            Err(error) => return Err(error),
        }
    }
    Err(io::ErrorKind::AlreadyExists.into())
}

/// Waits until the name of a new file is on the disk. Only Unix lets a folder be synced.
///
/// # Errors
///
/// Where it may not be.
pub fn sync_folder(path: &Path) -> io::Result<()> {
    if cfg!(unix) {
        let folder = match path.parent() {
            Some(folder) if folder != Path::new("") => folder,
            _ => Path::new("."),
        };
        File::open(folder)?.sync_all()?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_new_file_and_an_old_one() -> io::Result<()> {
        let folder = tempfile::tempdir()?;
        let path = folder.path().join("log.yaml");
        for text in ["one", "another"] {
            replace(&path, text.as_bytes())?;
            assert_eq!(fs::read_to_string(&path)?, text);
        }
        assert_eq!(fs::read_dir(folder.path())?.count(), 1);
        Ok(())
    }

    #[cfg(unix)]
    #[test]
    fn permissions_and_links_stay() -> io::Result<()> {
        use std::os::unix::fs::{PermissionsExt, symlink};
        let folder = tempfile::tempdir()?;
        let (path, link) = (folder.path().join("real"), folder.path().join("link"));
        fs::write(&path, "old")?;
        fs::set_permissions(&path, fs::Permissions::from_mode(0o640))?;
        symlink("real", &link)?;
        replace(&link, b"new")?;
        assert_eq!(fs::read_to_string(&path)?, "new");
        assert!(link.symlink_metadata()?.is_symlink());
        assert_eq!(path.metadata()?.permissions().mode() & 0o777, 0o640);
        Ok(())
    }

    #[test]
    fn a_folder_is_not_replaced_and_nothing_is_left_over() -> io::Result<()> {
        let folder = tempfile::tempdir()?;
        let path = folder.path().join("log.yaml");
        fs::create_dir(&path)?;
        assert!(replace(&path, b"new").is_err());
        assert_eq!(fs::read_dir(folder.path())?.count(), 1);
        Ok(())
    }
}
