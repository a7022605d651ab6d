//! The machine failed: a file could not be read or written, a template could not be drawn.

use std::{error, fmt, path::Path};

/// What the machine could not do, and why.
#[derive(Debug)]
pub struct Error {
    what: String,
    cause: Option<Box<dyn error::Error + Send + Sync>>,
}

impl Error {
    /// A failure without a deeper cause.
    #[must_use]
    pub fn new(what: impl Into<String>) -> Self {
        Self { what: what.into(), cause: None }
    }

    /// A failure with the cause that the library below gave.
    #[must_use]
    pub fn because(what: impl Into<String>, cause: impl Into<Box<dyn error::Error + Send + Sync>>) -> Self {
        Self { what: what.into(), cause: Some(cause.into()) }
    }

    /// A failure to do a thing with a path.
    #[must_use]
    pub fn path(what: &str, path: &Path, cause: impl Into<Box<dyn error::Error + Send + Sync>>) -> Self {
        Self::because(format!("cannot {what} {}", path.display()), cause)
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.what)?;
        let mut cause = error::Error::source(self);
        while let Some(deeper) = cause {
            write!(f, ": {deeper}")?;
            cause = deeper.source();
        }
        Ok(())
    }
}

impl error::Error for Error {
    fn source(&self) -> Option<&(dyn error::Error + 'static)> {
        self.cause.as_deref().map(|cause| cause as _)
    }
}
