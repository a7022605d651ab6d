//! The working behind the limits of lifts.

use crate::page::Context;
use crate::page::part::cite::Cite;
use crate::page::part::lift::heading;
use crate::page::part::worked::{Block, Part};
use crate::page::part::{Anchor, capital, range};
use crate::quantity::measure::rounded;
use crate::quantity::{Mass, Temperature, count};
use crate::reckon::findings::{TaskFinding, WoodWeight};
use crate::reckon::formula::Formula;
use crate::reckon::lifting;
use crate::reckon::lifting::{AIR, LIMIT, Stretch};
use crate::record::Id;
use crate::record::farm::Grip;
use crate::record::said::Mark;

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&LIMIT];

/// What was put in, and what it came to.
pub fn parts(context: &Context<'_>) -> Vec<Part> {
    let units = context.units();
    let [high, low, from] = lifting::estimate(units).map(|reach| format!("{} {}", rounded(reach, 0), units.length()));
    let [cool, warm] = AIR.map(|degrees| Temperature::of_celsius(degrees).show(units));
    let air = range(&cool, &warm);
    let manual = Cite::of(&Id::new("niosh-94-110"), Mark::Copy, context);
    let filters = Cite::of(&Id::new("hse-l23"), Mark::Memory, context);
    let estimated = format!(
        "Where the reach was not measured it is {high} plus half the thickness of the log with the hands at {from} or \
         higher, and {low} plus half below that. The four usual lifts are this handbook’s own choice: two hands, no \
         twist, bark and gloves counted as a poor grip. Each limit stands for jobs of up to 1, 2 and 8 hours: after the \
         first a rest as long as the work, after the second one of three tenths of it, in the third the usual breaks."
    );
    let weight = "The load is the most that a log can weigh: by the wettest of the moistures in the record of its wood, \
                  since small logs are mostly sapwood and a stem’s average says little of them; or by the heaviest, for \
                  its size, of three or more fresh logs that this farm weighed. From the tank it is taken 10 % heavier."
        .to_owned();
    let outside = format!(
        "Lifts with one hand, seated or kneeling, in a cramped place, of a load that shifts, with carrying, pushing \
         or pulling, with a barrow or shovel, tossed, on wet or icy ground, far from {air}, for more than eight \
         hours, or shared by two people. Outdoor work with logs is often one of these, so take the limit as an upper \
         guide. Other countries use other figures, such as filter values."
    );
    let lifts = context.findings.lifts().iter().flat_map(|task| [of_task(task, context), loads(task, context)]);
    vec![
        Part::new("formulas", "Formulas")
            .by(FORMULAS, context)
            .blocks([Block::default().line(estimated).cites([manual]), Block::default().line(weight)]),
        Part::new("lifts", "Each lift, by the thickness of the log").blocks(lifts),
        Part::new("outside", "Where the equation does not reach")
            .blocks([Block::default().line(outside).cites([filters])]),
    ]
}

fn of_task(task: &TaskFinding, context: &Context<'_>) -> Block {
    let units = context.units();
    let own = if task.own { ", as this farm describes it" } else { "" };
    let block = Block::of(Anchor::here(&task.id, format!("{}{own}", capital(&task.name))));
    let lift = &task.lift;
    let grip = match lift.grip {
        Grip::Good => "good",
        Grip::Fair => "fair",
        Grip::Poor => "poor",
    };
    let block = block.line(format!(
        "V = {} to {} {}, pace {} a minute, A = {}°, grip {grip}",
        rounded(lift.from.height, 1),
        rounded(lift.to.height, 1),
        units.length(),
        rounded(lift.a_minute, 2),
        rounded(lift.twist, 0)
    ));
    if let Err(gap) = &task.reached {
        return block.named(&task.id).comes_to(gap.to_string()).gap(Some(gap));
    }
    let limits = task.limits.iter().filter_map(|limit| limit.limit.result.as_ref().ok());
    let by_weight = |a: &&Mass, b: &&Mass| a.base().total_cmp(&b.base());
    let [least, most] = [limits.clone().min_by(by_weight), limits.max_by(by_weight)]
        .map(|limit| limit.map_or_else(String::new, |limit| limit.show(units)));
    let block = block.comes_to(format!("{}, {}", count(task.limits.len(), "limit", "limits"), range(&least, &most)));
    Stretch::ALL.into_iter().fold(block, |block, stretch| {
        let ours = if task.named == Some(stretch) { ", as this farm does it" } else { "" };
        let block = block.line(format!("Jobs of up to {}{ours}:", heading(stretch)));
        task.limits_for(stretch)
            .fold(block, |block, limit| block.figures(&limit.ends, context).figure(&limit.limit, context))
    })
}

/// Weight over limit for each wood, thickness by thickness, and the thickest log within the limit.
fn loads(task: &TaskFinding, context: &Context<'_>) -> Block {
    let units = context.units();
    let length = &context.book.farm.record.log.length;
    let id = format!("{}-loads", task.id);
    let block = Block::of(Anchor::here(&id, format!("{}: weight over limit", capital(&task.name)))).named(id);
    let of_wood = |block: Block, wood: &WoodWeight| {
        let Ok([_, most]) = &wood.ends else { return block };
        let weighed = format!("{}, at its heaviest by {}", wood.wood.name(), most.of.words());
        let of_job = |stretch| {
            let loads = task.loads(&wood.logs, stretch).filter(|load| load.index.result.is_ok());
            let numbers: Vec<String> = loads.map(|load| load.index.numbers(units)).collect();
            let thickest = task.thickest(wood, length, stretch, units);
            (!numbers.is_empty()).then(|| {
                format!("{weighed}, {}: {}; {}", heading(stretch), numbers.join("; "), thickest.numbers(units))
            })
        };
        Stretch::ALL.into_iter().filter_map(of_job).fold(block, Block::line)
    };
    let block = block.comes_to(count(context.findings.loads().count(), "wood", "woods"));
    context.findings.loads().fold(block, of_wood).made_by(FORMULAS)
}
