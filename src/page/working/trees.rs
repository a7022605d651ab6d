//! The working behind the logs of each tree.

use crate::book::Wood;
use crate::page::leaf::Grove;
use crate::page::part::cite::Cite;
use crate::page::part::worked::{Block, Part};
use crate::page::part::{Anchor, gain};
use crate::page::{Context, Page};
use crate::quantity::measure::rounded;
use crate::quantity::{Length, Units};
use crate::reckon::bolts::{KERF, Piece, STUMP};
use crate::reckon::findings::TreeFinding;
use crate::reckon::findings::trees::Counted;
use crate::reckon::formula::Formula;
use crate::reckon::gain::GAIN;
use crate::reckon::taper::{BUTT, FALLBACK, LOWER_STEM, UPPER_STEM};
use crate::reckon::volume::NEWTON;
use crate::record::{Id, Kind};

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&LOWER_STEM, &UPPER_STEM, &BUTT, &FALLBACK, &NEWTON, &GAIN];

/// What was put in, and what it came to.
pub fn parts(context: &Context<'_>) -> Vec<Part> {
    let findings = context.findings;
    let units = context.units();
    let log = &context.book.farm.record.log;
    let mut woods: Vec<&Wood> = findings.trees().iter().map(|tree| tree.tree.wood.as_ref()).collect();
    woods.sort_by_cached_key(|wood| wood.name().to_lowercase());
    woods.dedup_by(|a, b| a.id == b.id);
    let sought = format!(
        "Logs of {}, small end at least {}, middle at most {}, over bark; a stump of {} and {} for each cut. Nothing \
         is counted above a fork; a tree that forks at a height nobody wrote is cut off at six tenths of its height, \
         which is our assumption.",
        log.length.show(units),
        log.diameter.low.show(units),
        log.diameter.high.show(units),
        Length::of_feet(STUMP).show(units),
        Length::of_feet(KERF).show(units)
    );
    let groves = Grove::all(context.book).into_iter().map(|grove| {
        let text = grove.title(context.book);
        Anchor::to(context.route.to(&Page::WorkingTrees(grove)), text, context)
    });
    let gain = gain::words(context).map(|words| {
        let says =
            Block::of(Anchor::here(gain::BLOCK, "What this farm gets".to_owned())).named(gain::BLOCK).line(words.text);
        says.made_by(&[&GAIN])
    });
    vec![
        Part::new("formulas", "Formulas").by(FORMULAS, context),
        Part::new("numbers", "Figures used")
            .says(sought)
            .blocks(woods.into_iter().map(|wood| shape(wood, context)).chain(gain)),
        Part::new("trees", "Each tree").links(groves),
    ]
}

/// What was put in for some trees, and what it came to.
pub fn of(grove: &Grove, context: &Context<'_>) -> Vec<Part> {
    let stands =
        |found: &&TreeFinding| context.book.spots.get(&found.tree.tag().0).is_some_and(|spot| grove.holds(spot));
    let pieces =
        format!("Each tree’s pieces from the stump up: lower end / middle / upper end, {}.", context.units().length());
    let trees = context.findings.trees().iter().filter(stands).map(|tree| of_tree(tree, context));
    vec![
        Part::new("trees", "Each tree").says(pieces).blocks(trees),
        Part::new("formulas", "Formulas").by(FORMULAS, context),
    ]
}

/// The coefficients of a wood's stems.
fn shape(wood: &Wood, context: &Context<'_>) -> Block {
    let block = Block::of(Anchor::wood(wood, context));
    let Some(taper) = &wood.record.taper else {
        let cites = FALLBACK.sources.iter().map(|(id, mark)| Cite::of(&Id::new(*id), *mark, context));
        return block.line("no coefficients: the fallback is used").cites(cites);
    };
    let numbers = [
        ("a₄", taper.a4),
        ("b₄", taper.b4),
        ("a₁₇", taper.a17),
        ("b₁₇", taper.b17),
        ("p", taper.p),
        ("a", taper.a),
        ("b", taper.b),
        ("B₁", taper.stump.outside),
    ];
    let numbers = numbers.map(|(name, value)| format!("{name} = {}", rounded(value, 5))).join(", ");
    let group = if taper.of_group { ", a group" } else { "" };
    let note = taper.note.as_ref().map_or_else(String::new, |note| format!(". {note}"));
    let rows = format!("{numbers} (profile of {}{group}; butt of {}){note}", taper.row, taper.stump.row);
    block.line(rows).cites([Cite::by(taper, context), Cite::by(&taper.stump, context)])
}

fn of_tree(found: &TreeFinding, context: &Context<'_>) -> Block {
    let units = context.units();
    let record = &found.tree.record;
    let height = found.height.as_ref().map_or_else(String::new, |height| format!(", H = {}", height.show(units)));
    let how = match &found.counted {
        Ok(Counted::StandHeight) => " (height of the stand)",
        Ok(Counted::Eye) => " (logs by eye)",
        Ok(Counted::Height) | Err(_) => "",
    };
    let place = found.place();
    let numbers = format!("{}, D = {}{height}{how}", found.tree.wood.name(), record.dbh().show(units));
    let block = Block::of(Anchor::here(&place.block, record.tag.to_string())).named(&*place.block).line(numbers);
    let own = found.tree.origin.beside.iter().map(|(head, text)| format!("{head}: {text}"));
    let doubt = found.is_doubtful().then(|| "in doubt: left standing until its wood is known".to_owned());
    let block = own.chain(doubt).fold(block, Block::line);
    let pieces: Vec<String> =
        found.pieces.iter().flat_map(|cut| &cut.pieces).map(|piece| of_piece(piece, units)).collect();
    let block = if pieces.is_empty() { block } else { block.line(pieces.join(" · ")) };
    let thinner = found.careful.map_or_else(String::new, |careful| format!("; a stem 5 % thinner gives {careful}"));
    let made = format!("{} in the stem, {} in the limbs", found.stem_logs, found.limb_logs);
    let block = match &found.counted {
        Ok(_) => block.comes_to(format!("logs: {made}")).line(made + &thinner),
        Err(gap) => block.comes_to(gap.to_string()).gap(Some(gap)),
    };
    let block = match (found.told, context.findings.gain()) {
        (Some(told), Some(gain)) => block.line(format!(
            "{} reckoned · {} = {}, told as {told}",
            found.reckoned(),
            rounded(gain.part(), 2),
            rounded(f64::from(found.reckoned()) * gain.part(), 2)
        )),
        _ => block,
    };
    if found.pieces.is_none() {
        return block.cites(found.tree.stand.as_ref().map(|stand| Cite::record(Kind::Stand, &stand.id, context)));
    }
    block.made_by(&[if found.tree.wood.record.taper.is_some() { &LOWER_STEM } else { &FALLBACK }])
}

fn of_piece(piece: &Piece, units: Units) -> String {
    let over = if piece.oversize { " too thick" } else { "" };
    let ends = [&piece.large, &piece.middle, &piece.small].map(|end| rounded(end.number(units), 1));
    ends.join("/") + over
}
