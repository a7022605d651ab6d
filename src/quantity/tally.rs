//! A number of pieces, counted or guessed.

use super::as_text;
use crate::fault::Fault;

/// So many pieces, written as a whole number, or with `about` before it where nobody counted them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tally {
    /// How many.
    pub number: u32,
    /// Whether that is a guess.
    pub about: bool,
}

impl Tally {
    /// Reads a number of pieces.
    ///
    /// # Errors
    ///
    /// A [`Fault`] without a place, where there is no whole number.
    ///
    /// ```
    /// use hostwood::quantity::Tally;
    /// assert_eq!(Tally::read("about 12").unwrap(), Tally { number: 12, about: true });
    /// assert!(Tally::read("a dozen").is_err());
    /// ```
    pub fn read(text: &str) -> Result<Self, Fault> {
        let guessed = text.trim().strip_prefix("about");
        let number = guessed.unwrap_or(text).trim().parse().map_err(|_| {
            Fault::new("not-a-number", format!("`{text}` is no number of pieces"))
                .instead("write a whole number such as `12`, or `about 12` where nobody counted")
        })?;
        Ok(Self { number, about: guessed.is_some() })
    }

    /// The number as records write it.
    pub fn written(&self) -> String {
        format!("{}{}", if self.about { "about " } else { "" }, self.number)
    }
}

as_text!(Tally: ["string", "integer"], "tally", "12", |tally| f64::from(tally.number), "number of pieces", &[]);
