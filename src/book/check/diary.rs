//! A line of the day book that cannot be: an amount of the wrong kind, a log that is no sample, a day before inoculation or
//! far beyond the season, more logs lost than there are.

use std::collections::BTreeMap;

use super::called::Batches;
use super::{batch, unbelievable};
use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::quantity::{Amount, Date, Mass};
use crate::read::Node;
use crate::record::Kind;
use crate::record::diary::What;

/// A log weighs between these, in kilograms.
const LOG: [f64; 2] = [0.2, 200.0];
/// A soak lasts at most so many days, and a day's rain is at most so many metres.
const LONGEST_SOAK: f64 = 7.0;
const DEEPEST_RAIN: f64 = 1.0;
/// A log bears at most so many mushrooms at a time.
const MOST_MUSHROOMS: f64 = 1000.0;

/// Checks every line of the day book.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let mut faults = Vec::new();
    let batches = Batches::of(pile);
    let mut gone: BTreeMap<&str, u64> = BTreeMap::new();
    let ever = ever(pile, &batches);
    let mut lines: Vec<&Node> = pile.nodes(Kind::Diary).collect();
    lines.sort_by_key(|node| (&node.place.file.name, node.place.line));
    for node in lines {
        let what = node.word("what").and_then(|what| what.parse().ok());
        if let Some(what) = what {
            faults.extend(without_batch(node, what));
            faults.extend(without_number(node, what));
            faults.extend(amount(node, what));
            faults.extend(none(node, what));
        }
        faults.extend(too_late(pile, node, "date"));
        faults.extend(number_for_note(node));
        faults.extend(both(node));
        faults.extend(batch::no_yard(pile, node, "to"));
        for (id, batch) in batches.named(node) {
            faults.extend(too_soon(node, batch));
            faults.extend(too_many(node, id, *ever.get(id).unwrap_or(&0), what, &mut gone));
            faults.extend((what == Some(What::Weighed)).then(|| weighed(node, batch)).flatten());
        }
    }
    faults
}

fn without_batch(node: &Node, what: What) -> Option<Fault> {
    let needs = !matches!(what, What::RainedOn | What::WeedsSeen);
    (needs && node.get("batch").is_none() && node.items("batches").is_empty()).then(|| {
        Fault::new("missing-key", format!("which batch was meant by `{}` is not said", what.id()))
            .instead("write the id of the batch or its number under `batch`, or several under `batches`")
            .at(node.place_of("what"))
    })
}

/// A line that means nothing without a number of logs, or without a yard.
fn without_number(node: &Node, what: What) -> Option<Fault> {
    let (key, wrong, instead) = match what {
        What::Added => ("logs", "how many logs were added is not said", "write the number under `logs`"),
        What::Counted => ("logs", "how many logs were counted is not said", "write the number under `logs`"),
        What::Moved => ("to", "where the logs were moved is not said", "write the name of the yard under `to`"),
        _ => return None,
    };
    let fault = || Fault::new("missing-key", wrong).instead(instead).at(node.place_of("what"));
    node.get(key).is_none().then(fault)
}

/// No log, where it is no count.
fn none(node: &Node, what: What) -> Option<Fault> {
    (node.number("logs") == Some(0) && what != What::Counted).then(|| {
        let instead = "write how many logs, or leave the line out; only a count can find none, `counted`";
        unbelievable(format!("0 logs for `{}`", what.id()), instead, node.place_of("logs"))
    })
}

/// A batch and several beside it.
fn both(node: &Node) -> Option<Fault> {
    let single = node.get("batch").filter(|_| !node.items("batches").is_empty())?;
    let fault = Fault::new("key-twice", "a batch stands here, and several beside it");
    Some(fault.instead("keep `batch` or `batches`, and empty the other").at(single.place.clone()))
}

/// How many logs each batch has ever had: those that it began with, and those that were added.
fn ever<'a>(pile: &'a Pile, batches: &Batches<'a>) -> BTreeMap<&'a str, u64> {
    let began = pile.of(Kind::Batch).filter_map(|(id, laid)| Some((id, batch::logs(pile, &laid.node)?)));
    let mut ever: BTreeMap<&str, u64> = began.collect();
    for line in pile.nodes(Kind::Diary).filter(|line| line.word("what") == Some(What::Added.id())) {
        for (id, _) in batches.named(line) {
            *ever.entry(id).or_default() += line.number("logs").unwrap_or(0);
        }
    }
    ever
}

fn is_of_log(mass: &Mass) -> bool {
    (LOG[0]..=LOG[1]).contains(&mass.base())
}

/// An amount of another kind than the line's own, or one that is not believable.
fn amount(node: &Node, what: What) -> Option<Fault> {
    let Some(amount) = node.get("amount") else {
        return (what == What::Weighed).then(|| {
            Fault::new("missing-key", "how much the log weighed is not said")
                .instead("write the weight with its unit under `amount`, such as `26.8 lb`")
                .at(node.place_of("what"))
        });
    };
    let amount = Amount::read(&amount.plain()).ok()?;
    let (fits, wanted) = match what {
        What::Soaked => (
            matches!(&amount, Amount::Time(time) if (0.0..=LONGEST_SOAK).contains(&time.days())),
            "hours in the water, `12 hours`",
        ),
        What::Weighed => {
            (matches!(&amount, Amount::Mass(mass) if is_of_log(mass)), "the weight of one log, `26.8 lb` or `12.2 kg`")
        }
        What::RainedOn => (
            matches!(&amount, Amount::Length(depth) if (0.0..=DEEPEST_RAIN).contains(&depth.base())),
            "the depth of rain, `1.1 in` or `28 mm`",
        ),
        What::Fruited => (
            matches!(&amount, Amount::Count(count) if *count <= MOST_MUSHROOMS),
            "how many mushrooms came on a log, `8`",
        ),
        What::WeedsSeen
        | What::LogLost
        | What::Retired
        | What::Sold
        | What::Given
        | What::Added
        | What::Moved
        | What::Counted => return None,
    };
    (!fits).then(|| {
        let wrong = format!("{} is not believable for `{}`", amount.written(), what.id());
        unbelievable(wrong, format!("write {wanted}"), node.place_of("amount"))
    })
}

/// Years after the farm's season up to which a day is believable; a season that was not moved on is no fault of the day.
const BEYOND: i64 = 10;

/// A day far beyond the farm's season.
pub(super) fn too_late(pile: &Pile, node: &Node, key: &str) -> Option<Fault> {
    let season = i64::try_from(pile.farm()?.number("season")?).ok()?;
    let day = node.read(key, Date::read)?;
    (i64::from(day.0.year()) > season + BEYOND).then(|| {
        let wrong = format!("{} lies more than {BEYOND} years beyond the season of {season}", day.written());
        unbelievable(wrong, "look at the year, and at `season` in farm.yaml", node.place_of(key))
    })
}

/// A note that is a number: what a decimal comma leaves behind in a sheet whose cells are parted by commas.
pub(super) fn number_for_note(node: &Node) -> Option<Fault> {
    let note = node.word("note")?;
    let digits = !note.is_empty() && note.chars().all(|c| c.is_ascii_digit());
    (digits && node.place.file.is_sheet()).then(|| {
        Fault::new(
            "not-a-note",
            "a number stands where a note is wanted; a decimal comma may have parted it from the cell before",
        )
        .instead("write a point in the number, or save the sheet with semicolons between its cells")
        .at(node.place_of("note"))
    })
}

/// A day before the batch was inoculated.
pub(super) fn too_soon(node: &Node, batch: &Node) -> Option<Fault> {
    let (day, inoculated) = (node.read("date", Date::read)?, batch.read("inoculated", Date::read)?);
    (day < inoculated).then(|| {
        let wrong = format!("{} is before the batch was inoculated, on {}", day.written(), inoculated.written());
        unbelievable(wrong, "look at the day and at the batch", node.place_of("date"))
    })
}

/// More logs than the batch has ever had, in one line or gone in all.
fn too_many<'a>(
    node: &Node,
    id: &'a str,
    there: u64,
    what: Option<What>,
    gone: &mut BTreeMap<&'a str, u64>,
) -> Option<Fault> {
    let logs = node.number("logs");
    let (taken, are) = match what? {
        What::Added => return None,
        What::LogLost | What::Retired | What::Sold | What::Given => {
            let taken = gone.entry(id).or_default();
            *taken += logs.or_else(|| (what == Some(What::LogLost)).then_some(1))?;
            (*taken, if what == Some(What::LogLost) { "are lost by now" } else { "are gone by now" })
        }
        What::Counted => (logs?, "were counted"),
        _ => (logs?, "are meant"),
    };
    (there > 0 && taken > there).then(|| {
        let had = if are == "are meant" { "which has" } else { "which had" };
        let wrong = format!("{taken} logs of the batch `{id}` {are}, {had} {there}");
        unbelievable(wrong, "look at the number and at the batch", node.place_of("logs"))
    })
}

/// A weighing of a log that the batch does not name, or of a weight that this log cannot have.
fn weighed(node: &Node, batch: &Node) -> Option<Fault> {
    let Some(log) = node.get("log").map(Node::plain) else {
        return Some(
            Fault::new("missing-key", "which log was weighed is not said")
                .instead("write the label of a sample log of the batch under `log`")
                .at(node.place_of("what")),
        );
    };
    let labelled = batch.items("samples").iter().filter_map(|sample| Some((sample.get("label")?.plain(), sample)));
    let samples: Vec<(String, &Node)> = labelled.collect();
    let Some((_, sample)) = samples.iter().find(|(label, _)| *label == log) else {
        let labels: Vec<&str> = samples.iter().map(|(label, _)| label.as_str()).collect();
        let fault = Fault::new("unknown-id", format!("the batch has no sample log `{log}`"));
        let fault = if labels.is_empty() {
            fault.instead("write its label and its weight at inoculation under `samples` in the batch's record")
        } else {
            fault.instead(format!("write one of {}", labels.join(", ")))
        };
        return Some(fault.at(node.place_of("log")));
    };
    match Amount::read(&node.get("amount")?.plain()) {
        Ok(Amount::Mass(now)) if is_of_log(&now) => batch::other_log(sample, &now, node, "amount"),
        _ => None,
    }
}
