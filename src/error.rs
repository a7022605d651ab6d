//! The machine failed: a file could not be read or written, a template could not be drawn.

use std::path::Path;
use std::{error, fmt};

/// What the machine could not do, and why.
#[derive(Debug)]
pub struct Error {
    what: String,
    refusal: bool,
    cause: Option<Box<dyn error::Error + Send + Sync>>,
}

impl Error {
    /// A failure without a deeper cause.
    pub fn new(what: impl Into<String>) -> Self {
        Self { what: what.into(), refusal: false, cause: None }
    }

    /// A failure with the cause that the library below gave.
    pub fn because(what: impl Into<String>, cause: impl Into<Box<dyn error::Error + Send + Sync>>) -> Self {
        Self { what: what.into(), refusal: false, cause: Some(cause.into()) }
    }

    /// A refusal: the machine could, but it would cost somebody their files.
    pub fn refusal(what: impl Into<String>) -> Self {
        Self { what: what.into(), refusal: true, cause: None }
    }

    /// Whether the call asked for something that is refused.
    pub const fn is_refusal(&self) -> bool {
        self.refusal
    }

    /// A failure to do a thing with a path.
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
