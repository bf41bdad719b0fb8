//! Where the answer of a command is printed.

use std::io::{self, Write};

/// Standard output. Once nobody reads it any more, the rest of the answer is dropped and the command
/// goes on, so that it ends with the code it would have ended with. Any other failure says that it
/// was the answer which could not be printed.
pub(super) struct Answer<W> {
    to: W,
    closed: bool,
}

impl<W: Write> Answer<W> {
    /// Prints there.
    pub(super) const fn new(to: W) -> Self {
        Self { to, closed: false }
    }

    /// What comes of an attempt to print; `dropped` where nobody reads it.
    fn told<T>(&mut self, tried: io::Result<T>, dropped: T) -> io::Result<T> {
        match tried {
            Err(error) if error.kind() == io::ErrorKind::BrokenPipe => {
                self.closed = true;
                Ok(dropped)
            }
            Err(error) if error.kind() == io::ErrorKind::Interrupted => Err(error),
            Err(error) => Err(unprinted(&error)),
            done => done,
        }
    }
}

/// The failure of an answer that could not be printed.
pub(super) fn unprinted(error: &io::Error) -> io::Error {
    let says = format!("the answer could not be printed: {error}");
    io::Error::new(error.kind(), says)
}

impl<W: Write> Write for Answer<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if self.closed {
            return Ok(bytes.len());
        }
        let tried = self.to.write(bytes);
        self.told(tried, bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        if self.closed {
            return Ok(());
        }
        let tried = self.to.flush();
        self.told(tried, ())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Takes so many bytes, and then fails in this way.
    struct Takes(usize, io::ErrorKind);

    impl Write for Takes {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            let taken = bytes.len().min(self.0);
            self.0 -= taken;
            match taken {
                0 => Err(self.1.into()),
                taken => Ok(taken),
            }
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    #[test]
    fn what_nobody_reads_is_dropped_and_what_fails_is_told() {
        let mut answer = Answer::new(Takes(3, io::ErrorKind::BrokenPipe));
        assert!(answer.write_all(b"pulled").is_ok());
        assert!(
            answer
                .write_all(b"driven")
                .and_then(|()| answer.flush())
                .is_ok()
        );
        let mut answer = Answer::new(Takes(3, io::ErrorKind::StorageFull));
        let failed = answer.write_all(b"pulled").unwrap_err();
        assert_eq!(failed.kind(), io::ErrorKind::StorageFull);
        let says = failed.to_string();
        assert!(
            says.starts_with("the answer could not be printed: "),
            "{says}"
        );
    }
}
