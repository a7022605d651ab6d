//! Tells once what repeats: a wrong name that many rows have, and dates as a spreadsheet leaves them.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use super::Fault;

/// The rule of dates as a spreadsheet leaves them.
pub const MONTH_FIRST: &str = "month-first";

/// So many others are named; of more, the number.
const SHOWN: usize = 3;

/// Tells a fault that repeats once: a wrong name in a sheet with the lines in which it stands too, and the dates of a
/// spreadsheet in any file with three of them.
pub(super) fn tell(faults: &mut Vec<Fault>) {
    let mut first: BTreeMap<(&'static str, String, Option<String>), usize> = BTreeMap::new();
    let mut again: BTreeMap<usize, Vec<Fault>> = BTreeMap::new();
    let mut kept: Vec<Fault> = Vec::new();
    for fault in faults.drain(..) {
        let Some(key) = repeats(&fault) else {
            kept.push(fault);
            continue;
        };
        match first.entry(key) {
            Entry::Occupied(of) => again.entry(*of.get()).or_default().push(fault),
            Entry::Vacant(of) => {
                of.insert(kept.len());
                kept.push(fault);
            }
        }
    }
    for (at, others) in again {
        let one = &mut kept[at];
        one.wrong = if one.rule == MONTH_FIRST { dates(one, &others) } else { so_too(&one.wrong, &others) };
    }
    *faults = kept;
}

/// What a fault has in common with those that are told with it.
fn repeats(fault: &Fault) -> Option<(&'static str, String, Option<String>)> {
    let place = fault.place.as_ref()?;
    let wrong = match fault.rule {
        MONTH_FIRST => None,
        "unknown-id" | "missing-key" if place.file.is_sheet() => Some(fault.wrong.clone()),
        // A head without a unit is wrong once, not once a row.
        "no-unit" if place.file.is_sheet() => fault.instead.clone(),
        _ => return None,
    };
    Some((fault.rule, place.file.name.clone(), wrong))
}

/// The first three dates, and how many more there are.
fn dates(one: &Fault, others: &[Fault]) -> String {
    let date = |fault: &Fault| fault.wrong.split('`').nth(1).map(|date| format!("`{date}`"));
    let all = std::iter::once(one).chain(others).filter_map(date);
    format!("month first? {} do not say which number is the month", few(all.collect()))
}

fn so_too(wrong: &str, others: &[Fault]) -> String {
    let mut lines: Vec<usize> = others.iter().filter_map(|other| Some(other.place.as_ref()?.line)).collect();
    lines.dedup();
    let word = if lines.len() == 1 { "line" } else { "lines" };
    format!("{wrong} (so too in {word} {})", few(lines.iter().map(ToString::to_string).collect()))
}

/// A few of many in words: "a, b, c and 7 more".
///
/// ```
/// use hostwood::fault::once::few;
/// let words = |number: usize| few(["a", "b", "c", "d", "e"][..number].iter().map(ToString::to_string).collect());
/// assert_eq!([words(1), words(2), words(5)], ["a", "a and b", "a, b, c and 2 more"]);
/// ```
pub fn few(mut words: Vec<String>) -> String {
    let more = words.len().saturating_sub(SHOWN);
    let last = if more > 0 { Some(format!("{more} more")) } else { words.pop() };
    words.truncate(SHOWN);
    match (words.as_slice(), last) {
        ([], last) => last.unwrap_or_default(),
        (words, last) => format!("{} and {}", words.join(", "), last.unwrap_or_default()),
    }
}
