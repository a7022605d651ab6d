//! All dated work of the season as a calendar file (RFC 5545): one all-day entry each, with a name that stays the same.

use icalendar::{Calendar, Component, Event, Property};

use crate::book::Book;
use crate::page::part::work;
use crate::quantity::{Date, Units};
use crate::reckon::Findings;
use crate::reckon::findings::Work;
use crate::record::farm::Place;

/// The calendar of a season.
///
/// Entries are named after the work and the farm's place, so that reading a later edition updates what a calendar holds,
/// even under another name of the farm; their stamp is the date of the edition, never the clock's.
pub fn ics(book: &Book, findings: &Findings) -> String {
    let stamp = findings.choice.edition.unwrap_or(findings.axis());
    let mut calendar = Calendar::empty();
    let maker = format!("-//Hostwood//Field guide {}//EN", env!("CARGO_PKG_VERSION"));
    for property in [("VERSION", "2.0"), ("PRODID", &maker), ("CALSCALE", "GREGORIAN")] {
        calendar.append_property(property);
    }
    let domain = address(&book.farm.record.place);
    for work in findings.agenda() {
        calendar.push(event(work, &domain, stamp, findings.choice.units));
    }
    calendar.to_string().split("\r\n").map(folded).collect::<Vec<_>>().join("\r\n")
}

/// Octets of a line at most.
const LINE: usize = 75;

/// A line folded once more where its last part has an octet too many, as the end of a folded line may.
fn folded(line: &str) -> String {
    if line.len() <= LINE {
        return line.to_owned();
    }
    let (line, rest) = line.split_at((0..=LINE).rfind(|at| line.is_char_boundary(*at)).unwrap_or(0));
    format!("{line}\r\n {rest}")
}

fn event(work: &Work, domain: &str, stamp: Date, units: Units) -> Event {
    let mut event = Event::new();
    let day = |key: &str, date: Date| Property::new(key, basic(date)).add_parameter("VALUE", "DATE").done();
    event.add_property("UID", format!("{}@{domain}.hostwood.invalid", work.uid));
    event.add_property("DTSTAMP", format!("{}T000000Z", basic(stamp)));
    event.append_property(day("DTSTART", work.from));
    // The end of an all-day entry is the first day that no longer belongs to it.
    event.append_property(day("DTEND", work.to.plus(1)));
    event.add_property("SUMMARY", work.title());
    event.add_property("DESCRIPTION", work::lines(work, units).join("\n"));
    event.add_property("CATEGORIES", work.kind().word());
    event.add_property("TRANSP", "TRANSPARENT");
    event.done()
}

/// A date in the basic form that the format asks for: `20261005`.
fn basic(date: Date) -> String {
    date.written().replace('-', "")
}

/// A place as part of an address, to about a hundred metres: `n43-600-w72-500`.
fn address(place: &Place) -> String {
    let part = |degrees: f64, [up, down]: [char; 2]| {
        let thousandths = (degrees.abs() * 1000.0).round() as u32;
        format!("{}{}-{:03}", if degrees < 0.0 { down } else { up }, thousandths / 1000, thousandths % 1000)
    };
    format!("{}-{}", part(place.latitude, ['n', 's']), part(place.longitude, ['e', 'w']))
}
