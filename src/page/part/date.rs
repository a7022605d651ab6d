//! Stretches of the year in words.

use crate::quantity::date::month_name;
use crate::quantity::{Date, Units};
use crate::reckon::days::{Interval, Stretch};
use crate::reckon::season::{Basis, Season, of_day};

/// A stretch in this season: "November 15, 2026 to March 31, 2027".
pub fn stretch(stretch: impl Into<Stretch>, season: Season, units: Units) -> String {
    let (from, to) = season.dates(stretch);
    between(from, to, units)
}

/// Dates in words, and beside them by how much they may be wrong where a model gave them.
pub fn with_basis(dates: impl Into<String>, basis: Basis) -> String {
    let dates = dates.into();
    if basis == Basis::Modelled { format!("{dates} ({})", basis_words(basis)) } else { dates }
}

/// What dates rest on, in a few words.
pub fn basis_words(basis: Basis) -> String {
    basis.doubt().unwrap_or_else(|| basis.words().to_owned())
}

/// Two dates of one year beside a bar: "Nov 15 – Dec 3" or "15 Nov – 3 Dec".
pub fn short(from: Date, to: Date, units: Units) -> String {
    format!("{} – {}", short_day(from, units), short_day(to, units))
}

/// A date of the year in short: "Nov 15" or "15 Nov".
pub fn short_day(date: Date, units: Units) -> String {
    let (day, month) = (date.0.day(), &month_name(date.0.month())[..3]);
    units.pick(format!("{month} {day}"), format!("{day} {month}"))
}

/// The months of a stretch beside a bar, where it runs from the first day of one to the last of another; else its dates.
pub fn months(stretch: Interval, season: Season, units: Units) -> String {
    let (from, to) = season.dates(stretch);
    let [first, last] = [from, to].map(|date| month_name(date.0.month()));
    let next = of_day(stretch.to % 365 + 1);
    match from.0.day() == 1 && next.written().ends_with("-01") {
        true if stretch.days() == 365 => "any month".to_owned(),
        true if first == last => first.to_owned(),
        true => format!("{first} to {last}"),
        false => short(from, to, units),
    }
}

/// Two dates in words; the year of the first is left out where it is the second's.
pub fn between(from: Date, to: Date, units: Units) -> String {
    if from == to {
        from.show(units)
    } else if from.0.year() == to.0.year() {
        format!("{} to {}", from.day_of_year().show(units), to.show(units))
    } else {
        format!("{} to {}", from.show(units), to.show(units))
    }
}
