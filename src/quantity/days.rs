//! A day, or the two days between which a work was done.

use super::{Date, Units, as_text};
use crate::fault::Fault;

/// A day, written `2026-11-03`, or two with `to` between them: `2026-11-03 to 2026-11-05`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Days {
    /// The first day.
    pub from: Date,
    /// The last day; the first where there is one alone.
    pub to: Date,
}

impl Days {
    /// Reads a day or two.
    ///
    /// # Errors
    ///
    /// A [`Fault`] without a place, where a day is none or the second lies before the first.
    ///
    /// ```
    /// use hostwood::quantity::Days;
    /// assert_eq!(Days::read("2026-11-03 to 2026-11-05").unwrap().to.written(), "2026-11-05");
    /// assert!(Days::read("2026-11-05 to 2026-11-03").is_err());
    /// ```
    pub fn read(text: &str) -> Result<Self, Fault> {
        let (from, to) = text.split_once(" to ").unwrap_or((text, text));
        let (from, to) = (Date::read(from.trim())?, Date::read(to.trim())?);
        if from > to {
            let wrong = format!("the second of two days, {}, lies before the first", to.written());
            return Err(Fault::new("not-a-date", wrong).instead("write the earlier day first"));
        }
        Ok(Self { from, to })
    }

    /// The days as records write them.
    pub fn written(&self) -> String {
        if self.from == self.to {
            return self.from.written();
        }
        format!("{} to {}", self.from.written(), self.to.written())
    }

    /// The days as an edition prints them.
    pub fn show(&self, units: Units) -> String {
        if self.from == self.to {
            return self.from.show(units);
        }
        format!("{} to {}", self.from.show(units), self.to.show(units))
    }
}

as_text!(Days, "days", "2026-11-03", |days| f64::from(days.from.ordinal()));
