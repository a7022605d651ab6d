//! A line of the day book that cannot be: an amount of the wrong kind, a log that is no sample, a day before inoculation or
//! far beyond the season, more logs lost than there are.

use std::collections::BTreeMap;

use super::batch::{items, number};
use crate::{
    book::lay::{Laid, Pile},
    fault::Fault,
    quantity::{Amount, Date, Mass},
    read::Node,
    record::Kind,
};

/// A log weighs between these, in kilograms.
const LOG: [f64; 2] = [0.2, 200.0];
/// A sample log weighs no less and no more than these parts of its weight at inoculation.
const BELIEVABLE: [f64; 2] = [0.2, 1.6];
/// A soak lasts at most so many days, and a day's rain is at most so many metres.
const LONGEST_SOAK: f64 = 7.0;
const DEEPEST_RAIN: f64 = 1.0;

/// How a day's rain is written.
const RAIN: &str = "the depth of rain, `1.1 in` or `28 mm`";

/// Checks every line of the day book.
#[must_use]
pub fn check(pile: &Pile) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut lost: BTreeMap<&str, u64> = BTreeMap::new();
    let mut lines: Vec<&Node> =
        pile.iter().filter(|((kind, _), _)| *kind == Kind::Diary).map(|(_, line)| &line.node).collect();
    lines.sort_by_key(|node| (&node.place.file.name, node.place.line));
    for node in lines {
        let what = node.get("what").and_then(Node::text).unwrap_or("");
        let batch = node.get("batch").and_then(Node::text);
        let known = batch.and_then(|batch| pile.get(&(Kind::Batch, batch.to_owned())));
        faults.extend(without_batch(node, what));
        faults.extend(amount(node, what));
        faults.extend(too_late(pile, node, "date"));
        faults.extend(number_for_note(node));
        if let Some((batch, known)) = batch.zip(known) {
            faults.extend(too_soon(node, &known.node));
            faults.extend(too_many(node, batch, known, what, &mut lost));
            faults.extend(weighed(node, known, what));
        }
    }
    faults
}

fn at<'a>(node: &'a Node, key: &str) -> &'a Node {
    node.get(key).unwrap_or(node)
}

fn without_batch(node: &Node, what: &str) -> Option<Fault> {
    let needs = matches!(what, "soaked" | "weighed" | "log-lost" | "fruited");
    (needs && node.get("batch").is_none()).then(|| {
        Fault::new("missing-key", format!("which batch was meant by `{what}` is not said"))
            .instead("write the id of the batch under `batch`")
            .at(at(node, "what").place.clone())
    })
}

fn read(node: &Node) -> Option<Amount> {
    let text = match node.json() {
        serde_json::Value::String(text) => text,
        other => other.to_string(),
    };
    Amount::read(&text).ok()
}

/// An amount of another kind than the line's own, or one that is not believable.
fn amount(node: &Node, what: &str) -> Option<Fault> {
    let place = at(node, "amount").place.clone();
    let Some(amount) = node.get("amount").map(read) else {
        return (what == "weighed").then(|| {
            Fault::new("missing-key", "how much the log weighed is not said")
                .instead("write the weight with its unit under `amount`, such as `26.8 lb`")
                .at(at(node, "what").place.clone())
        });
    };
    let amount = amount?;
    let (fits, wanted) = match (what, &amount) {
        ("soaked", Amount::Time(time)) => {
            ((0.0..=LONGEST_SOAK).contains(&time.days()), "hours in the water, `12 hours`")
        }
        ("soaked", _) => (false, "hours in the water, `12 hours`"),
        ("weighed", Amount::Mass(mass)) => {
            ((LOG[0]..=LOG[1]).contains(&mass.base()), "the weight of one log, `26.8 lb` or `12.2 kg`")
        }
        ("weighed", _) => (false, "the weight of one log, `26.8 lb` or `12.2 kg`"),
        ("rained-on", Amount::Length(depth)) => ((0.0..=DEEPEST_RAIN).contains(&depth.base()), RAIN),
        ("rained-on", _) => (false, RAIN),
        ("fruited", Amount::Count(count)) => (*count <= 1000.0, "how many mushrooms came on a log, `8`"),
        ("fruited", _) => (false, "how many mushrooms came on a log, `8`"),
        _ => (true, ""),
    };
    (!fits).then(|| {
        let wrong = format!("{} is not believable for `{what}`", amount.written());
        Fault::new("not-believable", wrong).instead(format!("write {wanted}")).at(place)
    })
}

fn date(node: &Node, key: &str) -> Option<Date> {
    Date::read(node.get(key)?.text()?).ok()
}

/// Years after the farm's season up to which a day is believable; a season that was not moved on is no fault of the day.
const BEYOND: i64 = 10;

/// A day far beyond the farm's season.
pub(super) fn too_late(pile: &Pile, node: &Node, key: &str) -> Option<Fault> {
    let season = pile.get(&(Kind::Farm, "farm".to_owned()))?.node.get("season")?;
    let season = i64::try_from(number(Some(season))?).ok()?;
    let day = date(node, key)?;
    (i64::from(day.0.year()) > season + BEYOND).then(|| {
        let wrong = format!("{} lies more than {BEYOND} years beyond the season of {season}", day.show());
        Fault::new("not-believable", wrong)
            .instead("look at the year, and at `season` in farm.yaml")
            .at(at(node, key).place.clone())
    })
}

/// A note that is a number: what a decimal comma leaves behind in a sheet whose cells are parted by commas.
pub(super) fn number_for_note(node: &Node) -> Option<Fault> {
    let note = node.get("note")?;
    let digits = note.text().is_some_and(|text| !text.is_empty() && text.chars().all(|c| c.is_ascii_digit()));
    (digits && note.place.file.is_sheet()).then(|| {
        Fault::new(
            "not-a-note",
            "a number stands where a note is wanted; a decimal comma may have parted it from the cell before",
        )
        .instead("write a point in the number, or save the sheet with semicolons between its cells")
        .at(note.place.clone())
    })
}

fn too_soon(node: &Node, batch: &Node) -> Option<Fault> {
    let (day, inoculated) = (date(node, "date")?, date(batch, "inoculated")?);
    (day < inoculated).then(|| {
        let wrong = format!("{} is before the batch was inoculated, on {}", day.show(), inoculated.show());
        Fault::new("not-believable", wrong)
            .instead("look at the day and at the batch")
            .at(at(node, "date").place.clone())
    })
}

/// More logs than the batch has, in one line or lost in all.
fn too_many<'a>(
    node: &Node,
    batch: &'a str,
    known: &Laid,
    what: &str,
    lost: &mut BTreeMap<&'a str, u64>,
) -> Option<Fault> {
    let there = number(known.node.get("logs"))?;
    let logs = number(node.get("logs"));
    let taken = if what == "log-lost" {
        let taken = lost.entry(batch).or_default();
        *taken += logs.unwrap_or(1);
        *taken
    } else {
        logs?
    };
    (taken > there).then(|| {
        let wrong = match what {
            "log-lost" => format!("{taken} logs of the batch `{batch}` are lost by now, which had {there}"),
            _ => format!("{taken} logs of the batch `{batch}` are meant, which has {there}"),
        };
        Fault::new("not-believable", wrong)
            .instead("look at the number and at the batch")
            .at(at(node, "logs").place.clone())
    })
}

/// A weighing of a log that the batch does not name, or of a weight that this log cannot have.
fn weighed(node: &Node, known: &Laid, what: &str) -> Option<Fault> {
    if what != "weighed" {
        return None;
    }
    let Some(log) = node.get("log") else {
        return Some(
            Fault::new("missing-key", "which log was weighed is not said")
                .instead("write the label of a sample log of the batch under `log`")
                .at(at(node, "what").place.clone()),
        );
    };
    let label = |node: &Node| node.json().as_str().map_or_else(|| node.json().to_string(), str::to_owned);
    let samples = items(&known.node, "samples");
    let sample = samples.iter().find(|sample| sample.get("label").map(label) == Some(label(log)));
    let Some(sample) = sample else {
        let labels: Vec<String> = samples.iter().filter_map(|sample| sample.get("label")).map(label).collect();
        let fault = Fault::new("unknown-id", format!("the batch has no sample log `{}`", label(log)));
        let fault = if labels.is_empty() {
            fault.instead("write its label and its weight at inoculation under `samples` in the batch's record")
        } else {
            fault.instead(format!("write one of {}", labels.join(", ")))
        };
        return Some(fault.at(log.place.clone()));
    };
    let then = Mass::read(sample.get("at_inoculation")?.text()?).ok()?;
    let Amount::Mass(now) = read(node.get("amount")?)? else { return None };
    let part = now.base() / then.base();
    let of_log = (LOG[0]..=LOG[1]).contains(&now.base());
    (of_log && !(BELIEVABLE[0]..=BELIEVABLE[1]).contains(&part)).then(|| {
        let wrong = format!("{} is not believable for a log that weighed {}", now.written(), then.written());
        Fault::new("not-believable", wrong)
            .instead("look at the number and its unit")
            .at(at(node, "amount").place.clone())
    })
}
