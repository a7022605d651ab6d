//! Stretches of the year in words.

use crate::quantity::Date;
use crate::quantity::date::month_name;
use crate::reckon::days::Stretch;
use crate::reckon::season::{Basis, Season};

/// A stretch in this season: "15 November 2026 to 31 March 2027".
pub fn stretch(stretch: impl Into<Stretch>, season: Season) -> String {
    let (from, to) = season.dates(stretch);
    between(from, to)
}

/// Dates in words, and beside them by how much they may be wrong where a model gave them.
pub fn with_basis(dates: impl Into<String>, basis: Basis) -> String {
    let dates = dates.into();
    if basis == Basis::Modelled { format!("{dates} ({})", basis_words(basis)) } else { dates }
}

/// What dates rest on, in a few words.
pub fn basis_words(basis: Basis) -> String {
    basis.doubt().unwrap_or_else(|| basis.word().to_owned())
}

/// Two dates of one year beside a bar: "15 Nov – 3 Dec".
pub fn short(from: Date, to: Date) -> String {
    let day = |date: Date| format!("{} {}", date.0.day(), &month_name(date.0.month())[..3]);
    format!("{} – {}", day(from), day(to))
}

/// Two dates in words; the year of the first is left out where it is the second's.
pub fn between(from: Date, to: Date) -> String {
    if from == to {
        from.show()
    } else if from.0.year() == to.0.year() {
        format!("{} to {}", from.day_of_year().show(), to.show())
    } else {
        format!("{} to {}", from.show(), to.show())
    }
}
