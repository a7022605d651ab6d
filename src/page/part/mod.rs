//! What several pages share.
//!
//! | file | what it holds |
//! |---|---|
//! | [`frame`] | what stands round every page: farm, season, thumb index, edition |
//! | [`cite`] | who says so, and how far it was read; a row that a source says |
//! | [`rating`] | a rating as glyph, digit and word |
//! | [`fruiting`] | when a mushroom fruits: seasons of sources, air, own pickings |
//! | [`month`] | the work of a month |
//! | [`pair`] | a pairing in words, with what its sources say |
//! | [`caution`] | a caution with its word and band |
//! | [`date`] | stretches of the year in words |
//! | [`step`] | a step of a method, with its cautions |
//! | [`strip`] | the strip of the year for this farm |
//! | [`table`] | tables of pages, each column said once |
//! | [`coming`] | what a day of the season asks for, and what comes after it |
//! | [`door`] | the six doors of the front page, each with its number |
//! | [`doubt`] | trees of which nobody is sure what they are, and what to look at |
//! | [`deadline`] | by when trees must be down and logs inoculated |
//! | [`tree`] | a tagged tree in a table |
//! | [`brief`] | how a stretch of less than a week came about |
//! | [`falling`] | the trees that come down, on as many sheets as a telephone needs |
//! | [`untagged`] | how many logs a tree without a tag gives |
//! | [`waits`] | trees that wait, since no day is left to fill their logs |
//! | [`woods`] | several woods in a few words |
//! | [`work`] | a piece of dated work, and what a calendar says of it |
//! | [`worked`] | formulas and the figures that they made |
//! | [`entry`] | everything that can be looked up by its name |
//! | [`spread`] | what sources say of one quantity, on one axis |
//! | [`sheet`] | the record behind a page |
//! | [`alike`] | two woods that are taken for one another, character by character |
//! | [`character`] | characters of a tree in words |
//! | [`air`] | what is assumed of the air |
//! | [`batch`] | batches in lists, where each stands, and the working of its figures |
//! | [`gain`] | what this farm gets of the logs that are reckoned of its trees |
//! | [`gate`] | what is ticked off at a piece of work |
//! | [`handouts`] | the handouts by their titles |
//! | [`help`] | whom one calls, and how help finds the place |
//! | [`holding`] | where a record holds, what binds it there and whom to ask |
//! | [`growth`] | how many logs a stand gives for good |
//! | [`label`] | the six lines that head a mushroom |
//! | [`lift`] | what one person may lift, in jobs of one, two and eight hours |
//! | [`look_alike`] | what may be taken for a mushroom |
//! | [`matrix`] | mushrooms on woods, as a table of ratings |
//! | [`other_work`] | work beside drilled logs |
//! | [`photo`] | photographs |
//! | [`place`] | where the farm lies, in words |
//! | [`purchase`] | money in words |
//! | [`sales`] | what was sold, summed and line by line |
//! | [`rule`] | a rule of a place, and what stands where none is known |
//! | [`rest`] | how long logs rest after felling |
//! | [`weight`] | what logs weigh, and what that rests on |

pub mod air;
pub mod alike;
pub mod batch;
pub mod brief;
pub mod caution;
pub mod character;
pub mod cite;
pub mod coming;
pub mod date;
pub mod deadline;
pub mod door;
pub mod doubt;
pub mod entry;
pub mod falling;
pub mod frame;
pub mod fruiting;
pub mod gain;
pub mod gate;
pub mod growth;
pub mod handouts;
pub mod help;
pub mod holding;
pub mod label;
pub mod lift;
pub mod look_alike;
pub mod matrix;
pub mod month;
pub mod other_work;
pub mod pair;
pub mod photo;
pub mod place;
pub mod purchase;
pub mod rating;
pub mod rest;
pub mod rule;
pub mod sales;
pub mod sheet;
pub mod spread;
pub mod step;
pub mod strip;
pub mod table;
pub mod tree;
pub mod untagged;
pub mod waits;
pub mod weight;
pub mod woods;
pub mod work;
pub mod worked;

use serde::Serialize;

use super::route::Href;
pub use super::title::year_words;
use super::{Context, Page, title};
use crate::book::{Batch, Mushroom, Note, Rule, Strain, Window, Wood};
pub use crate::quantity::capital;
use crate::quantity::{Length, Mass, Units, Value, count};
use crate::reckon::formula;
use crate::reckon::formula::Place;
use crate::record::wood::Rank;
use crate::record::{Kind, Link};

/// A link and its text.
#[derive(Debug, Clone, Serialize)]
pub struct Anchor {
    /// Where it leads.
    pub href: Href,
    /// What it says.
    pub text: String,
}

impl Anchor {
    /// A link to what lies at a path.
    pub fn to(path: String, text: impl Into<String>, context: &Context<'_>) -> Self {
        Self { href: context.route.href(path), text: text.into() }
    }

    /// A link to a page by its title.
    pub fn page(page: &Page, context: &Context<'_>) -> Self {
        Self::to(context.route.to(page), page.title(context), context)
    }

    /// A link to a record by what it is called.
    pub fn link(link: &Link, context: &Context<'_>) -> Self {
        Self::to(context.route.link(link), title::of(link, context.book), context)
    }

    /// A link to the record of a kind under an id.
    pub fn record(kind: Kind, id: &str, context: &Context<'_>) -> Self {
        Self::link(&Link::to(kind, id), context)
    }

    /// A link to a block of the same page.
    pub fn here(block: &str, text: String) -> Self {
        Self { href: Href::To(format!("#{block}")), text }
    }

    /// A link to a mushroom.
    pub fn mushroom(mushroom: &Mushroom, context: &Context<'_>) -> Self {
        Self::record(Kind::Mushroom, &mushroom.id, context)
    }

    /// A link to a wood.
    pub fn wood(wood: &Wood, context: &Context<'_>) -> Self {
        Self::record(Kind::Wood, &wood.id, context)
    }

    /// A link to a strain.
    pub fn strain(strain: &Strain, context: &Context<'_>) -> Self {
        Self::record(Kind::Strain, &strain.id, context)
    }

    /// A link to a season window.
    pub fn window(window: &Window, context: &Context<'_>) -> Self {
        Self::record(Kind::Window, &window.id, context)
    }

    /// A link to a rule.
    pub fn rule(rule: &Rule, context: &Context<'_>) -> Self {
        Self::record(Kind::Rule, &rule.id, context)
    }

    /// A link to a batch.
    pub fn batch(batch: &Batch, context: &Context<'_>) -> Self {
        Self::record(Kind::Batch, &batch.id, context)
    }

    /// A link to a note.
    pub fn note(note: &Note, context: &Context<'_>) -> Self {
        Self::record(Kind::Note, &note.id, context)
    }

    /// Links to the notes about a record.
    pub fn notes_about(kind: Kind, id: &str, context: &Context<'_>) -> Vec<Self> {
        let notes = context.book.notes_about.get(&Link::to(kind, id));
        notes.into_iter().flatten().map(|note| Self::note(note, context)).collect()
    }
}

/// A number or a short text that leads to its working or its source.
#[derive(Debug, Clone, Serialize)]
pub struct Figure {
    /// What it says.
    pub text: String,
    href: Href,
    gap: bool,
}

impl Figure {
    /// What a formula made, leading to its working.
    pub fn of<T: Clone + Into<Value>>(made: &formula::Figure<T>, context: &Context<'_>) -> Self {
        match made.value() {
            Ok(value) => Self::worked(value.show(context.units()), &made.place, context),
            Err(gap) => Self::gap(gap.to_string()),
        }
    }

    /// Words that lead to a working.
    pub fn worked(text: impl Into<String>, place: &Place, context: &Context<'_>) -> Self {
        Self { text: text.into(), href: context.route.href(context.route.working(place)), gap: false }
    }

    /// Words that lead to their source, or to a page that says more of them.
    pub fn sourced(text: impl Into<String>, href: Href) -> Self {
        Self { text: text.into(), href, gap: false }
    }

    /// Words that lead nowhere.
    pub fn plain(text: impl Into<String>) -> Self {
        Self { text: text.into(), href: Href::Nowhere, gap: false }
    }

    /// The words that stand where there is no figure.
    pub fn gap(text: impl Into<String>) -> Self {
        Self { text: text.into(), href: Href::Nowhere, gap: true }
    }
}

/// A small number as a word.
pub fn number_word(number: usize) -> String {
    const WORDS: [&str; 13] =
        ["none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    WORDS.get(number).map_or_else(|| number.to_string(), |&word| word.to_owned())
}

/// The place of something in a row as a word.
pub fn ordinal_word(place: u32) -> String {
    const WORDS: [&str; 12] = [
        "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh",
        "twelfth",
    ];
    let word = (place as usize).checked_sub(1).and_then(|index| WORDS.get(index));
    word.map_or_else(|| format!("number {place}"), |&word| word.to_owned())
}

/// Words in one sentence part: "a, b and c".
pub fn and(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// Two values as a range, their unit once; one value where they are equal.
pub fn range(low: &str, high: &str) -> String {
    let unit = |text: &str| text.split_once(' ').map(|(_, unit)| unit.to_owned());
    match (unit(low), unit(high)) {
        _ if low == high => low.to_owned(),
        (Some(one), Some(other)) if one == other => format!("{}–{high}", low.trim_end_matches(&one).trim_end()),
        (Some(_), _) | (_, Some(_)) => format!("{low} to {high}"),
        (None, None) => format!("{low}–{high}"),
    }
}

/// Two weights as a range.
pub fn mass_range([least, most]: &[Mass; 2], units: Units) -> String {
    if least.grams() < 1.0 && most.grams() >= 1.0 {
        return format!("up to {}", mass_range(&[most.clone(), most.clone()], units));
    }
    // Both ends in one unit, and large weights without a decimal that nobody could weigh.
    let (unit, ends) = match units {
        Units::Us if most.pounds() >= 1.0 => ("lb", [least.pounds(), most.pounds()]),
        Units::Metric if most.base() >= 1.0 => ("kg", [least.base(), most.base()]),
        Units::Us | Units::Metric => return range(&least.show(units), &most.show(units)),
    };
    let words = ends.map(|end| if end >= 100.0 { format!("{end:.0} {unit}") } else { format!("{end:.1} {unit}") });
    range(&words[0], &words[1])
}

/// A thickness in inches as people measure it: to a tenth of an inch, or to a millimetre.
pub fn thickness(inches: f64, units: Units) -> String {
    match units {
        Units::Us => Length::of_inches((inches * 10.0).round() / 10.0).show(units),
        Units::Metric => Length::of_inches(inches).show(units),
    }
}

/// A number of logs in words.
pub fn logs_words(logs: f64) -> String {
    count(logs.round(), "log", "logs")
}

/// The heading of a list by rank.
pub const fn rank_words(rank: Rank) -> &'static str {
    match rank {
        Rank::Species => "species",
        Rank::Group => "group, for sources that name no species",
        Rank::Any => "too wide to rate",
    }
}
