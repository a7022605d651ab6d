//! The working behind batches and the soak rota.

use crate::page::Context;
use crate::page::part::cite::Cite;
use crate::page::part::worked::{Block, Part};
use crate::page::part::{Anchor, date, mass_range};
use crate::quantity::count;
use crate::reckon::findings::RotaFinding;
use crate::reckon::formula::Formula;
use crate::reckon::life::{FIRST, YIELDS};
use crate::reckon::rota;
use crate::reckon::rota::ROTA;

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&FIRST, &YIELDS, &ROTA];
/// Where the numbers of a batch stand.
const OF_EACH: &str = "What was put in for a batch stands at the foot of its page.";

/// What was put in, and what it came to.
pub fn parts(context: &Context<'_>) -> Vec<Part> {
    let rotas = context.findings.rotas();
    let rota_part = Part::new("rota", "The soak rota").by(&[&ROTA], context);
    vec![
        Part::new("first", "First mushrooms").by(&[&FIRST], context).says(OF_EACH),
        Part::new("life", "What a year should give").by(&[&YIELDS], context).says(OF_EACH),
        match rotas {
            [] => rota_part.blocks([Block::default().gap(Some("No strain of this farm is soaked."))]),
            rotas => rota_part.blocks(rotas.iter().map(|found| rota(found, context))),
        },
    ]
}

fn rota(found: &RotaFinding, context: &Context<'_>) -> Block {
    let units = context.units();
    let block = Block::of(Anchor::strain(&found.strain, context)).named(format!("rota-{}", found.id()));
    let season = match &found.season {
        Ok(season) => season,
        Err(gap) => return block.gap(Some(gap)).made_by(&[&ROTA]),
    };
    let sizes: Vec<String> = rota::groups(found.logs(), found.every.0).iter().map(ToString::to_string).collect();
    let block = block.line(format!(
        "{}, {} from soak to soak: groups of {}; the season is {}, {} in which a soak may begin; in all {} soaks of logs",
        count(found.logs(), "log", "logs"),
        count(found.every.0, "week", "weeks"),
        sizes.join(", "),
        date::between(season.dates.0, season.dates.1, context.units()),
        count(season.weeks(), "week", "weeks"),
        found.soaks()
    ));
    let block = found.expected.iter().fold(block, |block, line| {
        let [flush, all] = [&line.of.a_log.clone().into(), &line.all].map(|both| mass_range(both, units));
        block.line(format!("a flush each would give {} × {flush} = {all}", found.soaks())).cites([Cite::of(
            &line.of.source,
            line.of.mark,
            context,
        )])
    });
    let block = match &found.left {
        Some(left) => block.line(format!(
            "what the lives of these logs still hold, by the least and the most of the sources: {}, batch by batch at the foot of their pages",
            mass_range(left, units)
        )),
        None => block,
    };
    block.made_by(&[&ROTA])
}
