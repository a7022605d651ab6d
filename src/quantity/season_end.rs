//! An end of a season window.

use strum::{EnumString, IntoStaticStr, VariantNames};

use super::{DayOfYear, Duration, Temperature, Units, as_text};
use crate::fault::{Fault, suggest};

/// A thing that happens once a year and that a farm can observe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, EnumString, IntoStaticStr, VariantNames)]
pub enum Event {
    /// About 30 % of the leaves have coloured.
    #[strum(serialize = "leaf colour")]
    LeafColour,
    /// Buds swell.
    #[strum(serialize = "bud swell")]
    BudSwell,
}

impl Event {
    /// The event as records write it.
    pub fn words(self) -> &'static str {
        self.into()
    }

    /// The event as pages say it, in words that both editions spell alike.
    pub const fn said(self) -> &'static str {
        match self {
            Self::LeafColour => "the turning of leaves",
            Self::BudSwell => "the swelling of buds",
        }
    }
}

/// The longest shift of an event, in days.
const LONGEST_SHIFT: f64 = 183.0;

/// An end of a season window: a date of the year, an event with a shift, or the air crossing a temperature.
#[derive(Debug, Clone, PartialEq)]
pub enum SeasonEnd {
    /// A date of the year.
    Day(DayOfYear),
    /// An event, moved by some days.
    Event {
        /// The event.
        event: Event,
        /// Whether the end falls later than the event, and by how much.
        shift: Option<(bool, Duration)>,
    },
    /// The day on which the mean of the air crosses a temperature.
    Crossing {
        /// Whether the air warms or cools through it.
        rising: bool,
        /// The temperature.
        temperature: Temperature,
    },
}

impl SeasonEnd {
    /// Reads an end of a season window.
    ///
    /// # Errors
    ///
    /// A [`Fault`] without a place, where the end cannot be told.
    ///
    /// ```
    /// use hostwood::quantity::SeasonEnd;
    /// for end in ["11-15", "leaf colour", "bud swell - 10 days", "air rises above 50 F"] {
    ///     assert_eq!(SeasonEnd::read(end).unwrap().written(), end);
    /// }
    /// assert!(SeasonEnd::read("when the frogs sing").is_err());
    /// ```
    pub fn read(text: &str) -> Result<Self, Fault> {
        let text = text.trim();
        if text.starts_with(|c: char| c.is_ascii_digit()) {
            return DayOfYear::read(text).map(Self::Day);
        }
        match [true, false].into_iter().find_map(|rising| Some((rising, text.strip_prefix(crosses(rising))?))) {
            Some((rising, rest)) => Temperature::read(rest).map(|temperature| Self::Crossing { rising, temperature }),
            None => Self::event(text),
        }
    }

    fn event(text: &str) -> Result<Self, Fault> {
        let (name, shift) = match text.find(" + ").or_else(|| text.find(" - ")) {
            Some(space) => {
                let (name, shift) = (&text[..space], &text[space + 1..]);
                let by = Duration::read(shift[1..].trim())?;
                if !(0.0..=LONGEST_SHIFT).contains(&by.days()) {
                    let fault = Fault::new("not-believable", format!("a shift of {by} is not believable here"));
                    return Err(fault.instead("write a shift of at most half a year, such as `bud swell - 10 days`"));
                }
                (name, Some((shift.starts_with('+'), by)))
            }
            None => (text, None),
        };
        name.parse().map(|event| Self::Event { event, shift }).map_err(|_| Self::unknown(text, name))
    }

    fn unknown(text: &str, name: &str) -> Fault {
        let fault = Fault::new("window-end-unknown", format!("when `{text}` falls cannot be told"));
        fault.instead(match suggest::closest(name, Event::VARIANTS.iter().copied()) {
            Some(meant) => format!("write `{}`, if that is meant", text.replacen(name, meant, 1)),
            None => "write a date of the year (`11-15`), an observed event (`leaf colour`, `bud swell + 2 weeks`) or a crossing \
                     (`air rises above 50 F`)"
                .to_owned(),
        })
    }

    /// The end as it is printed.
    ///
    /// ```
    /// use hostwood::quantity::{SeasonEnd, Units};
    /// let end = SeasonEnd::read("air rises above 50 F").unwrap();
    /// assert_eq!(end.show(Units::Metric), "air rises above 10 °C");
    /// ```
    pub fn show(&self, units: Units) -> String {
        match self {
            Self::Day(day) => day.show(units),
            Self::Event { event, .. } => self.written().replacen(event.words(), event.said(), 1),
            Self::Crossing { rising, temperature } => crosses(*rising).to_owned() + &temperature.show(units),
        }
    }

    /// The end as records write it.
    pub fn written(&self) -> String {
        match self {
            Self::Day(day) => day.written(),
            Self::Event { event, shift: None } => event.words().to_owned(),
            Self::Event { event, shift: Some((later, by)) } => {
                format!("{} {} {by}", event.words(), if *later { '+' } else { '-' })
            }
            Self::Crossing { rising, temperature } => crosses(*rising).to_owned() + &temperature.written(),
        }
    }
}

/// How records say that the air crosses a temperature which follows.
const fn crosses(rising: bool) -> &'static str {
    if rising { "air rises above " } else { "air falls below " }
}

as_text!(SeasonEnd, "season-end", "leaf colour + 2 weeks", |_| 0.0);
