//! What is wrong in the records, where, and how to mend it.
//!
//! A [`Fault`] is a value, never a Rust error: every stage collects what it finds and a run reports all of it
//! together. A fault that is only a [question](Fault::question) stops nothing. [`place`] says where,
//! [`once`] tells what repeats once, [`draw`] shows it to a person or an editor, [`suggest`] finds the word that was meant,
//! [`unseen`] writes out what nobody sees.

pub mod draw;
pub mod once;
pub mod place;
pub mod suggest;
pub mod unseen;

use std::cmp::Ordering;

pub use once::MONTH_FIRST;
pub use place::{File, Place};

/// One thing that is wrong in the records.
///
/// ```
/// use hostwood::fault::Fault;
/// let fault = Fault::new("no-unit", "`4` has no unit").instead("write `4 in` or `10 cm`");
/// assert_eq!(fault.rule, "no-unit");
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// A short fixed name of the rule, for editors and tests.
    pub rule: &'static str,
    /// Where it stands; unknown only until the reader fills it in.
    pub place: Option<Place>,
    /// What is wrong, in a grower's words.
    pub wrong: String,
    /// What to write instead.
    pub instead: Option<String>,
    /// Whether it is only a question: what stands there can be right, but rarely is.
    pub question: bool,
}

impl Fault {
    /// A fault without a place yet.
    pub fn new(rule: &'static str, wrong: impl Into<String>) -> Self {
        Self { rule, place: None, wrong: wrong.into(), instead: None, question: false }
    }

    /// Says what to write instead.
    pub fn instead(mut self, instead: impl Into<String>) -> Self {
        self.instead = Some(instead.into());
        self
    }

    /// Says where the fault stands.
    pub fn at(mut self, place: Place) -> Self {
        self.place = Some(place);
        self
    }

    /// Makes a question of it.
    pub fn asked(mut self) -> Self {
        self.question = true;
        self
    }

    /// What one writes at the top of a record that is right, so that it is not asked again; `None` where it is no question.
    ///
    /// ```
    /// use hostwood::fault::Fault;
    /// let fault = Fault::new("no-where", "no country is named");
    /// assert_eq!(fault.answer(), None);
    /// assert_eq!(fault.asked().answer().as_deref(), Some("checked: ['no-where: …']"));
    /// ```
    pub fn answer(&self) -> Option<String> {
        self.question.then(|| format!("checked: ['{}: …']", self.rule))
    }
}

/// Puts faults in the order of files, lines and columns, questions after all others, and drops those said twice; what
/// repeats in a file is told once.
pub fn sort(faults: &mut Vec<Fault>) {
    let by_place = |a: &Fault, b: &Fault| match (&a.place, &b.place) {
        (Some(a_place), Some(b_place)) => a_place.cmp(b_place).then_with(|| a.wrong.cmp(&b.wrong)),
        (None, Some(_)) => Ordering::Less,
        (Some(_), None) => Ordering::Greater,
        (None, None) => a.wrong.cmp(&b.wrong),
    };
    faults.sort_by(|a, b| a.question.cmp(&b.question).then_with(|| by_place(a, b)));
    faults.dedup();
    once::tell(faults);
}
