//! The strip of the year: one straight year that starts in the dormant month, months to their true length, bars from
//! true date to true date with the dates written under their beginning. The drawing says where it begins and how broad a
//! day is, so that a script can mark today on a screen.

use std::fmt::Write;

use super::svg::{at, escaped};
use crate::{quantity::date::month_name, reckon::days::day};

/// The family of a task, by which bars are inked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Family {
    /// Felling.
    Cut,
    /// Inoculation.
    Inoculate,
    /// Fruiting.
    Fruit,
    /// Rest and waiting.
    Rest,
    /// Soaking.
    Soak,
}

impl Family {
    const fn class(self) -> &'static str {
        match self {
            Self::Cut => "f-cut",
            Self::Inoculate => "f-inoculate",
            Self::Fruit => "f-fruit",
            Self::Rest => "f-rest",
            Self::Soak => "f-soak",
        }
    }
}

/// How firmly a bar is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// Solid.
    Best,
    /// Hatched.
    Possible,
    /// Empty with a dashed outline.
    Only,
    /// Empty and crossed out: not in this stretch.
    Never,
}

/// A bar: a stretch of the year.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bar {
    /// First day of the year.
    pub from: u16,
    /// How many days.
    pub days: u16,
    /// How firmly it is meant.
    pub state: State,
    /// The dates in words.
    pub dates: String,
}

/// A row: a task and its bars.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Task {
    /// The task in a few words.
    pub name: String,
    /// Its family.
    pub family: Family,
    /// Its bars.
    pub bars: Vec<Bar>,
}

const LEFT: f64 = 176.0;
const DAY: f64 = 1.5;
const RIGHT: f64 = 10.0;
const TOP: f64 = 30.0;
const ROW: f64 = 46.0;
const THICK: f64 = 14.0;
/// Width of a letter under a bar, and how many letters stand there at most.
const LETTER: f64 = 6.8;
const DATES: usize = 76;

/// Draws rows over one year that starts on the first of a month (1 to 12).
#[must_use]
pub fn svg(id: &str, title: &str, first_month: i8, tasks: &[Task]) -> String {
    let width = LEFT + 365.0 * DAY + RIGHT;
    let height = TOP + ROW * tasks.len() as f64 + 8.0;
    let mut out = String::new();
    let _ = write!(
        out,
        r#"<svg class="almanac" viewBox="0 0 {} {}" data-from="{}" data-left="{LEFT}" data-day="{DAY}" role="img" aria-labelledby="{id}-title {id}-desc"><title id="{id}-title">{}</title><desc id="{id}-desc">The same dates stand in words on this page.</desc>"#,
        at(width),
        at(height),
        first_of(first_month),
        escaped(title)
    );
    hatches(&mut out, id);
    let start = first_of(first_month);
    months(&mut out, start, height);
    for (index, task) in tasks.iter().enumerate() {
        row(&mut out, id, task, TOP + ROW * index as f64, start);
    }
    out.push_str("</svg>");
    out
}

/// A hatch of ink for each family, so that a hatched bar keeps its family.
fn hatches(out: &mut String, id: &str) {
    out.push_str("<defs>");
    for family in [Family::Cut, Family::Inoculate, Family::Fruit, Family::Rest, Family::Soak] {
        let class = family.class();
        let _ = write!(
            out,
            r#"<pattern id="{id}-{class}" class="{class}" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="hatch" d="M1 0V6"/></pattern>"#
        );
    }
    out.push_str("</defs>");
}

/// Day of the year on which a month begins.
fn first_of(month: i8) -> i32 {
    const FIRST: [i32; 12] = [1, 32, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335];
    usize::try_from(month - 1).ok().and_then(|index| FIRST.get(index)).copied().unwrap_or(1)
}

fn x(number: i32, start: i32) -> f64 {
    LEFT + f64::from((number - start).rem_euclid(365)) * DAY
}

fn months(out: &mut String, start: i32, height: f64) {
    for month in 1..=12i8 {
        let left = x(first_of(month), start);
        let length = f64::from((first_of(month % 12 + 1) - first_of(month)).rem_euclid(365)) * DAY;
        let _ = write!(
            out,
            r#"<path class="month" d="M{0} 22V{1}"/><path class="mid" d="M{2} 22v6"/><text class="lab mon" x="{2}" y="15" text-anchor="middle">{3}</text>"#,
            at(left),
            at(height - 4.0),
            at(left + length / 2.0),
            &month_name(month)[..3]
        );
    }
    for edge in [LEFT, LEFT + 365.0 * DAY] {
        let _ = write!(out, r#"<path class="bark" d="M{} 18V{}"/>"#, at(edge), at(height - 2.0));
    }
}

fn row(out: &mut String, id: &str, task: &Task, top: f64, start: i32) {
    let _ = write!(
        out,
        r#"<text class="lab" x="{}" y="{}" text-anchor="end">{}</text>"#,
        at(LEFT - 8.0),
        at(top + 16.0),
        escaped(&task.name)
    );
    let mut taken = LEFT;
    for bar in &task.bars {
        for (left, days) in pieces(bar, start) {
            piece(out, id, task.family, bar.state, left, f64::from(days) * DAY, top + 5.0);
        }
        if bar.dates.is_empty() {
            continue;
        }
        let dates: String = bar.dates.chars().take(DATES).collect();
        let width = dates.chars().count() as f64 * LETTER;
        let wanted = x(i32::from(bar.from), start).max(taken);
        let place = wanted.min((LEFT + 365.0 * DAY - width).max(LEFT));
        // Dates that would run into those before them are left to the table below.
        if place >= taken {
            let _ = write!(
                out,
                r#"<text class="date" x="{}" y="{}">{}</text>"#,
                at(place),
                at(top + 37.0),
                escaped(&dates)
            );
            taken = place + width + LETTER;
        }
    }
}

/// The parts of a bar that runs over the end of the strip.
fn pieces(bar: &Bar, start: i32) -> Vec<(f64, u16)> {
    let left = x(i32::from(bar.from), start);
    let room = ((LEFT + 365.0 * DAY - left) / DAY).round() as u16;
    if bar.days <= room {
        return vec![(left, bar.days)];
    }
    vec![(left, room), (x(i32::from(day(start)), start), bar.days - room)]
}

fn piece(out: &mut String, id: &str, family: Family, state: State, left: f64, width: f64, top: f64) {
    let class = family.class();
    let rect = format!(r#"x="{}" y="{}" width="{}" height="{THICK}""#, at(left), at(top), at(width));
    let _ = write!(out, r#"<g class="{class}">"#);
    let _ = match state {
        State::Best => write!(out, r#"<rect class="bar best" {rect}/><rect class="bar-edge" {rect}/>"#),
        State::Possible => {
            write!(
                out,
                r#"<rect class="bar possible" fill="url(#{id}-{class})" {rect}/><rect class="bar-edge" {rect}/>"#
            )
        }
        State::Only => write!(out, r#"<rect class="bar only" {rect}/>"#),
        State::Never => write!(
            out,
            r#"<rect class="bar-edge" {rect}/><path class="bar-edge" d="M{0} {1}L{2} {3}M{0} {3}L{2} {1}"/>"#,
            at(left),
            at(top),
            at(left + width),
            at(top + THICK)
        ),
    };
    out.push_str("</g>");
}
