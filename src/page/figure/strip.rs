//! The strip of the year: one straight year that starts in the dormant month, months to their true length, bars from
//! true date to true date with the dates written under their beginning. The drawing says where it begins and how broad a
//! day is, so that a script can mark today on a screen.

use super::hatch;
use super::svg::{Anchor, at, cross, drawing, escaped, path, rect, shared, text};
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
    /// Its first and its last day in short, to stand at its two ends; none where its words stand once, or another bar of
    /// its row says them.
    pub ends: Option<[String; 2]>,
}

/// A row: a task and its bars.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Task {
    /// The task in a few words.
    pub name: String,
    /// Its family.
    pub family: Family,
    /// What stands at the right end over its bars, where its name stands above them.
    pub aside: String,
    /// Its bars; a later one covers an earlier one.
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
    /// Room at the right edge.
    edge: f64,
    /// The class of the drawing.
    class: &'static str,
}

/// The strip of screens and sheets.
pub const BROAD: Measure = Measure { left: 176.0, day: 1.5, row: 46.0, edge: 10.0, class: "almanac" };
/// The strip of a telephone, on which names stand above their bars and dates at both ends.
pub const THUMB: Measure = Measure { left: 1.0, day: 0.88, row: 50.0, edge: 1.0, class: "almanac of-thumb" };

impl Measure {
    fn right(self) -> f64 {
        self.left + 365.0 * self.day
    }

    fn x(self, number: i32, start: i32) -> f64 {
        self.left + f64::from((number - start).rem_euclid(365)) * self.day
    }
}

const TOP: f64 = 30.0;
const THICK: f64 = 14.0;
/// Width of a letter under a bar, and how many letters stand there at most.
const LETTER: f64 = 7.4;
/// Width of a letter on the strip of a telephone.
const SMALL: f64 = 7.3;
const DATES: usize = 76;

/// Draws rows over one year that starts on the first of a month (1 to 12).
pub fn svg(id: &str, title: &str, first_month: i8, tasks: &[Task], measure: Measure) -> String {
    let height = TOP + measure.row * tasks.len() as f64 + 8.0;
    let start = first_of(first_month);
    let [left, day] = [measure.left, measure.day].map(at);
    let data = format!(r#" data-from="{start}" data-left="{left}" data-day="{day}""#);
    let rows = tasks.iter().enumerate();
    let drawn = if measure == THUMB { thumb_row } else { row };
    let rows = rows.map(|(index, task)| drawn(task, TOP + measure.row * index as f64, start, measure));
    let shows = std::iter::once(months(start, height, measure)).chain(rows);
    let beside = "The same dates are in words on this page.";
    drawing(measure.class, [measure.right() + measure.edge, height], &data, [id, title], beside, shows)
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

fn months(start: i32, height: f64, measure: Measure) -> String {
    let low = at(height - 8.0);
    let edge = |(_, left, _): (i8, f64, f64)| format!("M{} {low}v6", at(left));
    let edges: String = spans(start, measure).map(edge).collect();
    let [left, right, low] = [measure.left, measure.right(), height - 2.0].map(at);
    let bark = format!("M{left} 18V{low}M{right} 18V{low}");
    let foot = path("month", &edges) + &path("bark", &bark);
    if measure == THUMB { format!(r##"<use href="#{MONTHS}"/>"##) + &foot } else { names(start, measure) + &foot }
}

fn names(start: i32, measure: Measure) -> String {
    let class = if measure == THUMB { "mon small" } else { "mon" };
    let name = |(month, left, length): (i8, f64, f64)| {
        text(class, [left + length / 2.0, 15.0], Anchor::Start, &month_name(month)[..3])
    };
    let names: String = spans(start, measure).map(name).collect();
    let edge = |(_, left, _): (i8, f64, f64)| format!("M{} 20v7", at(left));
    names + &path("month", &spans(start, measure).map(edge).collect::<String>())
}

/// The names of the months over a small strip that begins on the first of a month, once a page.
pub fn defs(first_month: i8) -> String {
    let names = names(first_of(first_month), THUMB);
    shared("defs", &format!(r#"<g id="{MONTHS}">{names}</g>"#))
}

fn row(task: &Task, top: f64, start: i32, measure: Measure) -> String {
    let mut out = text("lab", [measure.left - 8.0, top + 16.0], Anchor::Start, &task.name);
    let mut taken = measure.left;
    for bar in &task.bars {
        let pieces = pieces(bar, start, measure);
        for &(left, days) in &pieces {
            out += &piece(task.family, bar.state, [left, top + 5.0, f64::from(days) * measure.day, THICK]);
        }
        if bar.dates.is_empty() {
            continue;
        }
        let dates: String = bar.dates.chars().take(DATES).collect();
        let width = dates.chars().count() as f64 * LETTER;
        // Beneath the longer part of a bar that runs over the end.
        let longest = pieces.iter().filter(|(left, _)| *left >= taken).max_by_key(|(_, days)| *days);
        let wanted = longest.map_or(taken, |(left, _)| *left);
        let place = wanted.min((measure.right() - width).max(measure.left));
        // Dates that would run into those before them are left to the table below.
        if place >= taken {
            let ([x, y], dates) = ([place, top + measure.row.min(41.0) - 4.0].map(at), escaped(&dates));
            let words = format!(r#"<text x="{x}" y="{y}">{dates}</text>"#);
            out += &words;
            taken = place + width + LETTER;
        }
    }
    out
}

/// A row whose name stands above its bars, and whose dates stand at their two ends.
fn thumb_row(task: &Task, top: f64, start: i32, measure: Measure) -> String {
    let mut out = text("lab above", [measure.left, top + 13.0], Anchor::Start, &task.name);
    if !task.aside.is_empty() {
        out += &text("aside", [measure.right() - 5.0, top + 13.0], Anchor::End, &task.aside);
    }
    let mut taken = measure.left;
    for bar in &task.bars {
        let pieces = pieces(bar, start, measure);
        let width = |days: u16| f64::from(days) * measure.day;
        for &(left, days) in &pieces {
            out += &piece(task.family, bar.state, [left, top + 18.0, width(days), THICK]);
        }
        let said = bar.ends.clone().or_else(|| (!bar.dates.is_empty()).then(|| [bar.dates.clone(), bar.dates.clone()]));
        let Some([first, last]) = &said else { continue };
        let (left, right) = match pieces.as_slice() {
            [(left, days)] => (*left, left + width(*days)),
            [(left, days), (again, rest), ..] => {
                out += &arrows([left + width(*days), *again], top + 18.0 + THICK / 2.0);
                (*left, again + width(*rest))
            }
            [] => continue,
        };
        let base = top + 18.0 + THICK + 13.0;
        let letters = |words: &str| words.chars().count() as f64 * SMALL;
        if first != last && pieces.len() > 1 {
            out += &text("", [left.min(measure.right() - letters(first)), base], Anchor::Start, first);
            out += &text("", [right.max(measure.left + letters(last)), base], Anchor::End, last);
        } else if first != last && right - left > letters(first) + letters(last) + LETTER {
            out += &text("", [left, base], Anchor::Start, first);
            out += &text("", [right, base], Anchor::End, last);
            taken = right + LETTER;
        } else {
            let words = if first == last { first.clone() } else { format!("{first} – {last}") };
            let place = ((left + right - letters(&words)) / 2.0).min(measure.right() - letters(&words)).max(taken);
            // Dates that would run over the edge are left to the list below.
            if place + letters(&words) <= measure.right() + 1.0 {
                out += &text("", [place, base], Anchor::Start, &words);
                taken = place + letters(&words) + LETTER;
            }
        }
    }
    out
}

/// The two arrow heads of a bar that runs over the end of the strip: it goes on at the right edge, and comes from the left.
fn arrows([right, left]: [f64; 2], middle: f64) -> String {
    let [right, tip, left, root, low] = [right - 1.0, right - 6.0, left + 1.0, left + 6.0, middle].map(at);
    path(
        "arrow",
        &format!("M{tip} {low}m0 -4L{right} {low}L{tip} {low}m0 4M{root} {low}m0 -4L{left} {low}L{root} {low}m0 4"),
    )
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

fn piece(family: Family, state: State, sides: [f64; 4]) -> String {
    let class = family.class();
    let [left, top, width, thick] = sides;
    match state {
        State::Best => rect(&format!(r#"class="bar best {class}""#), sides),
        State::Possible => {
            let hatch = hatch::id(family);
            rect(&format!(r#"class="bar possible {class}" fill="url(#{hatch})""#), sides)
        }
        State::Only => rect(r#"class="bar only""#, sides),
        State::Never => {
            rect(r#"class="bar never""#, sides) + &path("bar never", &cross([left, top, left + width, top + thick]))
        }
    }
}
