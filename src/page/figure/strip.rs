//! The strip of the year: one straight year that starts in the dormant month, months to their true length, bars from
//! true date to true date with the dates written under their beginning. The drawing says where it begins and how broad a
//! day is, so that a script can mark today on a screen.

use std::fmt::Write;

use super::hatch;
use super::svg::{at, escaped};
use crate::quantity::date::month_name;
use crate::reckon::days::day;

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
    /// The class by which a theme inks it.
    pub const fn class(self) -> &'static str {
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

/// The id of the names of the months.
const MONTHS: &str = "strip-months";
/// How broad a strip is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measure {
    /// Room for the names of tasks.
    left: f64,
    /// How broad a day is.
    day: f64,
    /// How tall a row is.
    row: f64,
}

/// The strip of screens and sheets.
pub const BROAD: Measure = Measure { left: 176.0, day: 1.5, row: 46.0 };
/// The strip of pocket pages, whose letters are as large on two thirds of the breadth.
pub const NARROW: Measure = Measure { left: 146.0, day: 0.92, row: 37.0 };

impl Measure {
    fn right(self) -> f64 {
        self.left + 365.0 * self.day
    }

    fn x(self, number: i32, start: i32) -> f64 {
        self.left + f64::from((number - start).rem_euclid(365)) * self.day
    }
}

const RIGHT: f64 = 10.0;
const TOP: f64 = 30.0;
const THICK: f64 = 14.0;
/// Width of a letter under a bar, and how many letters stand there at most.
const LETTER: f64 = 7.4;
const DATES: usize = 76;

/// Draws rows over one year that starts on the first of a month (1 to 12).
pub fn svg(id: &str, title: &str, first_month: i8, tasks: &[Task], measure: Measure) -> String {
    let height = TOP + measure.row * tasks.len() as f64 + 8.0;
    let mut out = String::new();
    let _ = write!(
        out,
        r#"<svg class="almanac" viewBox="0 0 {} {}" data-from="{}" data-left="{}" data-day="{}" role="img" aria-labelledby="{id}-title {id}-desc"><title id="{id}-title">{}</title><desc id="{id}-desc">The same dates stand in words on this page.</desc>"#,
        at(measure.right() + RIGHT),
        at(height),
        first_of(first_month),
        at(measure.left),
        at(measure.day),
        escaped(title)
    );
    let start = first_of(first_month);
    months(&mut out, start, height, measure);
    for (index, task) in tasks.iter().enumerate() {
        row(&mut out, task, TOP + measure.row * index as f64, start, measure);
    }
    out.push_str("</svg>");
    out
}

/// Day of the year on which a month begins.
fn first_of(month: i8) -> i32 {
    const FIRST: [i32; 12] = [1, 32, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335];
    usize::try_from(month - 1).ok().and_then(|index| FIRST.get(index)).copied().unwrap_or(1)
}

/// Where each month begins on the strip, and how long it is.
fn spans(start: i32, measure: Measure) -> impl Iterator<Item = (i8, f64, f64)> {
    (1..=12i8).map(move |month| {
        let length = f64::from((first_of(month % 12 + 1) - first_of(month)).rem_euclid(365)) * measure.day;
        (month, measure.x(first_of(month), start), length)
    })
}

fn months(out: &mut String, start: i32, height: f64, measure: Measure) {
    let (mut edges, mut middles) = (String::new(), String::new());
    for (_, left, length) in spans(start, measure) {
        let _ = write!(edges, "M{} 22V{}", at(left), at(height - 4.0));
        let _ = write!(middles, "M{} 22v6", at(left + length / 2.0));
    }
    let names = if measure == BROAD { format!(r##"<use href="#{MONTHS}"/>"##) } else { names(start, measure) };
    let _ = write!(
        out,
        r#"<path class="month" d="{edges}"/><path class="mid" d="{middles}"/>{names}<path class="bark" d="M{0} 18V{2}M{1} 18V{2}"/>"#,
        at(measure.left),
        at(measure.right()),
        at(height - 2.0)
    );
}

fn names(start: i32, measure: Measure) -> String {
    let name = |(month, left, length): (i8, f64, f64)| {
        let x = at(left + length / 2.0);
        format!(r#"<text class="mon" x="{x}" y="15">{}</text>"#, &month_name(month)[..3])
    };
    spans(start, measure).map(name).collect()
}

/// The names of the months over a broad strip that begins on the first of a month, once a page.
pub fn defs(first_month: i8) -> String {
    let names = names(first_of(first_month), BROAD);
    format!(r#"<svg class="defs" aria-hidden="true"><g id="{MONTHS}">{names}</g></svg>"#)
}

fn row(out: &mut String, task: &Task, top: f64, start: i32, measure: Measure) {
    let _ = write!(
        out,
        r#"<text class="lab" x="{}" y="{}">{}</text>"#,
        at(measure.left - 8.0),
        at(top + 16.0),
        escaped(&task.name)
    );
    let mut taken = measure.left;
    for bar in &task.bars {
        for (left, days) in pieces(bar, start, measure) {
            piece(out, task.family, bar.state, left, f64::from(days) * measure.day, top + 5.0);
        }
        if bar.dates.is_empty() {
            continue;
        }
        let dates: String = bar.dates.chars().take(DATES).collect();
        let width = dates.chars().count() as f64 * LETTER;
        let wanted = measure.x(i32::from(bar.from), start).max(taken);
        let place = wanted.min((measure.right() - width).max(measure.left));
        // Dates that would run into those before them are left to the table below.
        if place >= taken {
            let _ = write!(
                out,
                r#"<text x="{}" y="{}">{}</text>"#,
                at(place),
                at(top + measure.row.min(41.0) - 4.0),
                escaped(&dates)
            );
            taken = place + width + LETTER;
        }
    }
}

/// The parts of a bar that runs over the end of the strip.
fn pieces(bar: &Bar, start: i32, measure: Measure) -> Vec<(f64, u16)> {
    let left = measure.x(i32::from(bar.from), start);
    let room = ((measure.right() - left) / measure.day).round() as u16;
    if bar.days <= room {
        return vec![(left, bar.days)];
    }
    vec![(left, room), (measure.x(i32::from(day(start)), start), bar.days - room)]
}

fn piece(out: &mut String, family: Family, state: State, left: f64, width: f64, top: f64) {
    let class = family.class();
    let rect = format!(r#"x="{}" y="{}" width="{}" height="{THICK}""#, at(left), at(top), at(width));
    let _ = match state {
        State::Best => write!(out, r#"<rect class="bar best {class}" {rect}/>"#),
        State::Possible => {
            write!(out, r#"<rect class="bar possible {class}" fill="url(#{})" {rect}/>"#, hatch::id(family))
        }
        State::Only => write!(out, r#"<rect class="bar only" {rect}/>"#),
        State::Never => write!(
            out,
            r#"<rect class="bar never" {rect}/><path class="bar never" d="M{0} {1}L{2} {3}M{0} {3}L{2} {1}"/>"#,
            at(left),
            at(top),
            at(left + width),
            at(top + THICK)
        ),
    };
}
