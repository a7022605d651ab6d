//! A batch that cannot be: of two lots that contradict it, of two woods, for a wish that nobody has, in a yard that is none, a
//! weight that no log can have, inoculated before it was felled or ended before it was inoculated.

use std::f64::consts::PI;

use super::{diary, lot, unbelievable};
use crate::book::lay::Pile;
use crate::fault::{Fault, suggest};
use crate::quantity::{Date, Length, Mass};
use crate::read::Node;
use crate::record::Kind;
use crate::record::evidence::Way;
use crate::record::farm::LogSize;

/// A sample log weighs no less and no more than these parts of its weight at inoculation.
const BELIEVABLE: [f64; 2] = [0.2, 1.6];

/// A slice holds at most so many times its dry weight.
const WETTEST: f64 = 4.0;

/// A fresh log weighs no less and no more than these parts of as much water.
const OF_WATER: [f64; 2] = [0.3, 1.5];

/// Checks every batch.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let mut faults = Vec::new();
    for batch in pile.nodes(Kind::Batch) {
        faults.extend(lots(batch));
        faults.extend(uncounted(pile, batch));
        faults.extend(other_wood(pile, batch));
        faults.extend(no_wish(pile, batch));
        faults.extend(no_yard(pile, batch, "yard"));
        faults.extend(ended_sooner(batch));
        faults.extend(lot::two_woods(pile, batch, "batch"));
        faults.extend(batch.items("trees").iter().filter_map(|tag| lot::no_tree(pile, tag)));
        faults.extend(batch.items("samples").iter().flat_map(weights));
        let length = length(pile, batch);
        faults.extend(batch.items("samples").iter().filter_map(|sample| size(sample, &length)));
        faults.extend(batch.items("slices").iter().filter_map(slice));
        faults.extend(felled_later(batch));
        faults.extend(diary::too_late(pile, batch, "inoculated"));
    }
    faults
}

/// How many logs a batch began with: its own number, those of its lots, or what its trees gave.
pub(super) fn logs(pile: &Pile, batch: &Node) -> Option<u64> {
    let several =
        || batch.items("lots").iter().map(|take| take.number("logs")).sum::<Option<u64>>().filter(|logs| *logs > 0);
    let single = || lot::logs(pile, pile.node(Kind::Lot, batch.word("lot")?)?);
    batch.number("logs").or_else(several).or_else(single).or_else(|| lot::given(pile, batch))
}

fn way(batch: &Node) -> Option<Way> {
    batch.word("way").map_or(Some(Way::default()), |way| way.parse().ok())
}

/// A batch that nobody counted.
fn uncounted(pile: &Pile, batch: &Node) -> Option<Fault> {
    let known = if way(batch)? == Way::Totem { batch.number("logs") } else { logs(pile, batch) };
    (known.is_none() && batch.get("logs").is_none() && way(batch)? != Way::ChipBed).then(|| {
        let what = match way(batch) {
            Some(Way::Totem) => "totems",
            Some(Way::Stump) => "stumps",
            _ => "logs",
        };
        Fault::new("missing-key", format!("how many {what} this batch has is not said"))
            .instead("write `logs: 12`, or for logs the `lot` that they come from")
            .at(batch.place.clone())
    })
}

/// A lot beside several, or numbers that contradict each other.
fn lots(batch: &Node) -> Option<Fault> {
    let takes = batch.items("lots");
    if let Some(lot) = batch.get("lot").filter(|_| !takes.is_empty()) {
        let fault = Fault::new("key-twice", "a lot stands here, and several beside it");
        return Some(fault.instead("keep `lot` or `lots`, and empty the other").at(lot.place.clone()));
    }
    if way(batch)? == Way::Totem {
        let single = batch.get("lot").filter(|_| batch.get("logs").is_some())?;
        let fault = Fault::new("missing-key", "how many rounds of this lot the totems took is not said");
        return Some(fault.instead("write `lots: [{lot: NAME, logs: 16}]` in its place").at(single.place.clone()));
    }
    let (own, sum) = (batch.number("logs")?, takes.iter().map(|take| take.number("logs")).sum::<Option<u64>>()?);
    (!takes.is_empty() && own != sum).then(|| {
        let wrong = format!("this batch has {own} logs, and its lots give it {sum}");
        unbelievable(wrong, "look at both numbers, or leave `logs` out", batch.place_of("logs"))
    })
}

/// A lot of another wood than the batch.
fn other_wood(pile: &Pile, batch: &Node) -> Option<Fault> {
    let named = batch.get("lot").into_iter().chain(batch.items("lots").iter().filter_map(|take| take.get("lot")));
    let wood = |lot: &Node| -> Option<&str> {
        let lot = pile.node(Kind::Lot, lot.text()?)?;
        let of_tree = || pile.node(Kind::Tree, &lot.items("trees").first()?.plain())?.word("wood");
        lot.word("wood").or_else(of_tree)
    };
    let woods: Vec<(&Node, &str)> = named.filter_map(|lot| Some((lot, wood(lot)?))).collect();
    let first = batch.word("wood").or_else(|| woods.first().map(|(_, wood)| *wood))?;
    let (lot, other) = woods.iter().find(|(_, wood)| *wood != first)?;
    let wrong = format!("the lot `{}` is of `{other}`, and this batch of `{first}`", lot.plain());
    Some(unbelievable(wrong, "write two batches, a wood each", lot.place.clone()))
}

/// A wish that no plan makes.
fn no_wish(pile: &Pile, batch: &Node) -> Option<Fault> {
    let wish = batch.get("wish")?;
    let text = wish.text()?;
    let place = wish.place.clone();
    let fault = |wrong: String, instead: String| Some(Fault::new("unknown-id", wrong).instead(instead).at(place));
    let names = |plan: &Node| -> Vec<String> {
        plan.items("wishes").iter().filter_map(|wish| wish.word("name")).map(str::to_owned).collect()
    };
    let Some((id, name)) = text.split_once('/') else {
        return fault(
            format!("`{text}` names no wish"),
            "write the plan and the name of its wish, such as `winter/guests`".to_owned(),
        );
    };
    let Some(plan) = pile.node(Kind::Plan, id.trim()) else {
        let known = suggest::either(pile.of(Kind::Plan).map(|(id, _)| id));
        return fault(format!("there is no plan `{}`", id.trim()), format!("write one that exists: {known}"));
    };
    let names = names(plan);
    if names.iter().any(|known| known == name.trim()) {
        return None;
    }
    let instead = if names.is_empty() {
        format!("give the wish its `name: {}` in the plan, or leave `wish` out", name.trim())
    } else {
        format!("write one of its wishes: {}", suggest::either(names.iter().map(String::as_str)))
    };
    fault(format!("the plan `{}` has no wish of the name `{}`", id.trim(), name.trim()), instead)
}

/// A yard that the farm does not name.
pub(super) fn no_yard(pile: &Pile, node: &Node, key: &str) -> Option<Fault> {
    let named = node.get(key)?;
    let yards = pile.farm().map_or(&[][..], |farm| farm.items("yards"));
    let known: Vec<&str> = yards.iter().filter_map(|yard| yard.word("name")).collect();
    let text = named.plain();
    (!known.contains(&text.as_str())).then(|| {
        let instead = if known.is_empty() {
            format!("name it in farm.yaml: `yards: [{{name: {text}}}]`")
        } else {
            format!("write one of the farm's yards: {}", suggest::either(known))
        };
        Fault::new("unknown-id", format!("there is no yard `{text}`")).instead(instead).at(named.place.clone())
    })
}

/// A batch that ended before it was inoculated.
fn ended_sooner(batch: &Node) -> Option<Fault> {
    let ended = batch.get("ended")?;
    let (last, inoculated) = (ended.read("date", Date::read)?, batch.read("inoculated", Date::read)?);
    (last < inoculated).then(|| {
        let wrong = format!("this batch ended on {}, before it was inoculated", last.written());
        unbelievable(wrong, "look at both dates", ended.place_of("date"))
    })
}

fn weights(sample: &Node) -> Vec<Fault> {
    let wrong = |weighing: &Node| other_log(sample, &weighing.read("weight", Mass::read)?, weighing, "weight");
    sample.items("weighed").iter().filter_map(wrong).collect()
}

/// The length of a batch's logs: its own, that of its lot, or that of the farm's log.
fn length(pile: &Pile, batch: &Node) -> Length {
    let of = |node: &Node| node.read("length", Length::read);
    let lot = || batch.word("lot").and_then(|lot| pile.node(Kind::Lot, lot)).and_then(of);
    let farm = || pile.nodes(Kind::Farm).next().and_then(|farm| farm.get("log")).and_then(of);
    of(batch).or_else(lot).or_else(farm).unwrap_or_else(|| LogSize::default().length)
}

/// A weight that no fresh log of such a size has.
fn size(sample: &Node, length: &Length) -> Option<Fault> {
    let (across, mass) = (sample.read("diameter", Length::read)?, sample.read("at_inoculation", Mass::read)?);
    let litres = PI / 4.0 * across.base().powi(2) * length.base() * 1000.0;
    (!(OF_WATER[0]..=OF_WATER[1]).contains(&(mass.base() / litres))).then(|| {
        let wrong = format!("{} is not believable for a log of its length, {} thick", mass.written(), across.written());
        let look = "look at both and their units; the thickness is that through the middle, not around it";
        unbelievable(wrong, look, sample.place_of("diameter"))
    })
}

/// A weight under a key of a record that a sample log cannot have.
pub(super) fn other_log(sample: &Node, now: &Mass, record: &Node, key: &str) -> Option<Fault> {
    let then = sample.read("at_inoculation", Mass::read)?;
    let part = now.base() / then.base();
    (!(BELIEVABLE[0]..=BELIEVABLE[1]).contains(&part)).then(|| {
        let wrong = format!("{} is not believable for a log that weighed {}", now.written(), then.written());
        unbelievable(wrong, "look at the number and its unit", record.place_of(key))
    })
}

fn slice(slice: &Node) -> Option<Fault> {
    let (wet, dry) = (slice.read("wet", Mass::read)?, slice.read("dry", Mass::read)?);
    (wet.base() > dry.base() * WETTEST).then(|| {
        let wrong = format!("a slice of {} cannot dry to {}", wet.written(), dry.written());
        unbelievable(wrong, "look at both numbers and their units", slice.place_of("dry"))
    })
}

fn felled_later(batch: &Node) -> Option<Fault> {
    let (felled, inoculated) = (batch.read("felled", Date::read)?, batch.read("inoculated", Date::read)?);
    (felled > inoculated).then(|| {
        let wrong = format!("this batch was inoculated on {}, before it was felled", inoculated.written());
        unbelievable(wrong, "look at both dates", batch.place_of("felled"))
    })
}
