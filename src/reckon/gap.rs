//! Why a figure is missing.

use std::fmt;

use crate::quantity::Event;

/// A formula lacks an input, or is outside the range for which it holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Gap {
    /// A value is not in the record.
    NotRecorded(&'static str),
    /// An event has not been observed on this farm.
    NotObserved(Event),
    /// An event has not been observed, and the model for it does not hold here.
    Unmodelled(&'static str),
    /// The tree keeps its leaves, so no leaf tells when its growth rests.
    KeepsLeaves,
    /// The day on which the air crosses a temperature needs the monthly means of the place.
    NeedsMonthlyMeans(String),
    /// The usual mean of the air never falls below a temperature that an end of a window asks for.
    NeverBelow(String),
    /// The usual mean of the air never rises above it.
    NeverAbove(String),
    /// A value lies outside the range for which a formula holds, and why.
    Outside(&'static str),
    /// Nobody has published the figure.
    NotPublished(&'static str),
    /// No felling window of this farm can be told.
    NoFellingWindow,
    /// A no-cut window holds, but its dates cannot be told.
    NoCutUntold(String),
    /// No day of the inoculation window follows a felling by the rest.
    NothingFits,
    /// What is left after the no-cut windows is nothing.
    NothingLeft,
}

impl Gap {
    /// Whether a date is missing since nothing tells when growth rests here, so that the farm's own season has to.
    pub const fn has_no_dormancy(&self) -> bool {
        matches!(self, Self::Unmodelled(_) | Self::KeepsLeaves)
    }
}

impl fmt::Display for Gap {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotRecorded(what) => write!(f, "no figure: {what} is not recorded"),
            Self::NotObserved(event) => {
                write!(
                    f,
                    "no date: {} has not been observed here; write the dates in farm.yaml under observed, or the twelve \
                     monthly means under climate",
                    event.said()
                )
            }
            Self::Unmodelled(why) => write!(f, "no date: not observed here, and {why}"),
            Self::KeepsLeaves => f.write_str(
                "no date: this tree keeps its leaves, so no leaf tells when its growth rests; ask a grower near you, and \
                 write a felling window of your own into seasons",
            ),
            Self::NeedsMonthlyMeans(end) => {
                write!(f, "no date: when the {end} can be told once farm.yaml has twelve monthly means under climate")
            }
            Self::NeverBelow(cold) => write!(f, "no date: by its usual means the air never falls below {cold}"),
            Self::NeverAbove(warm) => write!(f, "no date: by its usual means the air never rises above {warm}"),
            Self::Outside(why) => write!(f, "no figure: {why}"),
            Self::NotPublished(what) => {
                write!(f, "no figure: none of our sources gives {what}")
            }
            Self::NoFellingWindow => f.write_str("no date: no felling window can be told for this farm"),
            Self::NoCutUntold(window) => {
                write!(f, "no date: the no-cut window “{window}” holds here, but its dates cannot be told")
            }
            Self::NothingFits => {
                f.write_str("no date: no day fits both the rest and the inoculation window; change one of the two")
            }
            Self::NothingLeft => f.write_str("no date: the no-cut windows leave nothing of the felling window"),
        }
    }
}
