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
/// Where the system refuses, with the name of the file; then it is as it was, or the error says that
/// it is written. What is no file, or may not be written, is not replaced.
pub fn replace(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let named = |error: io::Error| {
        let says = format!("{} cannot be written: {error}", path.display());
        io::Error::new(error.kind(), says)
    };
    let target = target(path).map_err(named)?;
    let (beside, file) = create_beside(&target).map_err(named)?;
    let written = fill(file, &target, bytes).and_then(|()| fs::rename(&beside, &target));
    if let Err(error) = written {
        // What is left over does no harm; the first error is the one to tell.
        let _ = fs::remove_file(&beside);
        return Err(named(error));
    }
    sync_folder(&target).map_err(|error| {
        let says = format!(
            "{} is written, but whether it would outlast a loss of power is not known: {error}",
            path.display()
        );
        io::Error::new(error.kind(), says)
    })
}

/// The file that is to be replaced: the one a link leads to.
fn target(path: &Path) -> io::Result<PathBuf> {
    let target = match path.canonicalize() {
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            leads_nowhere(path)?;
            return Ok(path.to_owned());
        }
        target => target?,
    };
    let known = target.metadata()?;
    if known.is_dir() {
        let says = "it is a folder";
        return Err(io::Error::new(io::ErrorKind::IsADirectory, says));
    }
    // To rename over it would take a device away from everybody.
    if !known.is_file() {
        return Err(io::Error::other("it is not a file"));
    }
    // To rename asks only whether the folder may be written.
    if known.permissions().readonly() {
        let says = "it may only be read, not written";
        return Err(io::Error::new(io::ErrorKind::PermissionDenied, says));
    }
    Ok(target)
}

/// Refuses a link that leads to nothing: what it should lead to may be on a disk that is away.
///
/// # Errors
///
/// Where it is one, with where it leads.
pub fn leads_nowhere(path: &Path) -> io::Result<()> {
    match fs::read_link(path) {
        Ok(to) => {
            let says = format!("it is a link to {}, and nothing is there", to.display());
            Err(io::Error::other(says))
        }
        Err(_) => Ok(()),
    }
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
        let refused = replace(&path, b"new").unwrap_err();
        assert_eq!(refused.kind(), io::ErrorKind::IsADirectory);
        assert!(refused.to_string().contains("log.yaml"), "{refused}");
        assert_eq!(fs::read_dir(folder.path())?.count(), 1);
        Ok(())
    }

    #[test]
    fn a_file_that_may_only_be_read_is_not_replaced() -> io::Result<()> {
        let folder = tempfile::tempdir()?;
        let path = folder.path().join("log.yaml");
        fs::write(&path, "old")?;
        let mut closed = path.metadata()?.permissions();
        closed.set_readonly(true);
        fs::set_permissions(&path, closed)?;
        let refused = replace(&path, b"new").unwrap_err();
        assert_eq!(refused.kind(), io::ErrorKind::PermissionDenied);
        assert_eq!(fs::read_to_string(&path)?, "old");
        Ok(())
    }

    #[cfg(unix)]
    #[test]
    fn a_link_to_nothing_or_to_no_file_is_not_replaced() -> io::Result<()> {
        use std::os::unix::{fs::symlink, net::UnixListener};
        let folder = tempfile::tempdir()?;
        let (link, socket) = (folder.path().join("link"), folder.path().join("socket"));
        symlink("nothing", &link)?;
        let refused = replace(&link, b"new").unwrap_err().to_string();
        assert!(
            refused.ends_with("link to nothing, and nothing is there"),
            "{refused}"
        );
        assert!(link.symlink_metadata()?.is_symlink());
        let _open = UnixListener::bind(&socket)?;
        fs::remove_file(&link)?;
        symlink("socket", &link)?;
        let refused = replace(&link, b"new").unwrap_err().to_string();
        assert!(refused.ends_with("it is not a file"), "{refused}");
        assert_eq!(fs::read_dir(folder.path())?.count(), 2);
        Ok(())
    }
}
