//! The tables of a log: what it weighs, takes up, may be lifted at and has dried to.

use super::{Grid, Sheet};
use crate::{
    book::Book,
    quantity::{Mass, Percent, Units},
    reckon::{
        Findings, Gap,
        findings::{LoadFinding, Reading, SliceReading, TaskFinding, lifts::load},
        lifting::{Limit, advice},
        moisture::{dry_of_wet, lost},
    },
};

pub fn weights(findings: &Findings) -> Grid {
    Sheet::of(findings.weights())
        .column("wood", |of| &of.wood.id)
        .column("diameter", |of| &of.diameter)
        .column("length", |of| &of.length)
        .column("mass", |of| of.mass.as_ref().ok())
        .column("mass_least", |of| of.range.as_ref().map(|[least, _]| least))
        .column("mass_most", |of| of.range.as_ref().map(|[_, most]| most))
        .column("basis", |of| match &of.mass {
            Ok(_) if of.green.bark.is_some() => "wood and bark".to_owned(),
            Ok(_) => "wood alone".to_owned(),
            Err(gap) => gap.to_string(),
        })
        .grid(findings.choice.units)
}

pub fn inoculation(findings: &Findings) -> Grid {
    Sheet::of(findings.fillings())
        .column("pattern", |of| &of.pattern.name)
        .column("spawn", |of| of.form.id())
        .column("diameter", |of| &of.diameter)
        .column("length", |of| &of.length)
        .column("logs", |of| of.logs)
        .column("holes_per_log", super::super::findings::logs::Filling::whole_holes)
        .column("holes", super::super::findings::logs::Filling::all_holes)
        .column("spawn_least", |of| of.all_spawn().map(|[least, _]| least))
        .column("spawn_most", |of| of.all_spawn().map(|[_, most]| most))
        .column("packages_least", |of| of.need.as_ref().ok().map(|need| need.packages_least))
        .column("packages_most", |of| of.need.as_ref().ok().map(|need| need.packages_most))
        .column("source", |of| of.pattern.source.as_str())
        .column("mark", |of| of.pattern.mark.words())
        .grid(findings.choice.units)
}

/// A lift of a log.
struct Lift<'a> {
    task: &'a TaskFinding,
    log: &'a LoadFinding,
    mass: Option<Mass>,
    limit: Option<Limit>,
    index: Result<f64, Gap>,
}

pub fn lifting<'a>(book: &'a Book, findings: &'a Findings) -> Grid {
    let units = findings.choice.units;
    let lift = |task: &'a TaskFinding, log: &'a LoadFinding| {
        let (mass, limit) = (log.mass(task.soaked), task.limit(&log.diameter, units));
        let index = limit.clone().and_then(|limit| limit.index(load(&mass.clone()?, units)));
        Lift { task, log, mass: mass.ok(), limit: limit.ok(), index }
    };
    let rows = findings.lifts().iter().flat_map(|task| findings.loads().iter().map(move |log| (task, log)));
    let rows: Vec<Lift> = rows.map(|(task, log)| lift(task, log)).collect();
    Sheet::of(&rows)
        .column("task", |of| &of.task.id)
        .column("wood", |of| &of.log.wood.id)
        .column("diameter", |of| &of.log.diameter)
        .column("length", |_| &book.farm.record.log.length)
        .column("soaked", |of| of.task.soaked)
        .column("mass", |of| of.mass.as_ref())
        .column("rwl", |of| of.limit.as_ref().map(|limit| of_load(limit.governing().limit, units)))
        .to(1)
        .number("li", 2, |of| of.index.as_ref().ok().copied())
        .column("advice", |of| of.index.as_ref().map_or_else(Gap::to_string, |index| advice(*index).to_owned()))
        .grid(units)
}

/// A weight of so many pounds or kilograms.
fn of_load(load: f64, units: Units) -> Mass {
    match units {
        Units::Us => Mass::of_pounds(load),
        Units::Metric => Mass::of_kilograms(load),
    }
}

/// A weighing of a sample log, or a slice.
#[derive(Clone, Copy)]
enum Wetness<'a> {
    Log(&'a Reading),
    Slice(&'a SliceReading),
}

impl<'a> Wetness<'a> {
    fn log(self) -> Option<&'a Reading> {
        match self {
            Self::Log(log) => Some(log),
            Self::Slice(_) => None,
        }
    }

    fn slice(self) -> Option<&'a SliceReading> {
        match self {
            Self::Log(_) => None,
            Self::Slice(slice) => Some(slice),
        }
    }

    /// What the two have in common, read from either.
    fn either<T>(self, log: impl Fn(&'a Reading) -> T, slice: impl Fn(&'a SliceReading) -> T) -> T {
        match self {
            Self::Log(of) => log(of),
            Self::Slice(of) => slice(of),
        }
    }
}

pub fn moisture(findings: &Findings) -> Grid {
    let slices = findings.slices().iter().map(Wetness::Slice);
    Sheet::of(findings.readings().iter().map(Wetness::Log).chain(slices))
        .column("batch", |of| of.either(|log| &log.batch.id, |slice| &slice.batch.id))
        .column("of", |of| of.either(|_| "sample log", |_| "slice"))
        .column("label", |of| of.log().map(|log| log.label.to_string()))
        .column("date", |of| of.either(|log| log.date, |slice| slice.slice.date))
        .column("mass_first", |of| of.either(|log| &log.then, |slice| &slice.slice.wet))
        .column("mass_then", |of| of.either(|log| &log.now, |slice| &slice.slice.dry))
        .column("lost", |of| of.log().map(|log| Percent::of_part(lost(&log.then, &log.now))))
        .column("too_dry", |of| of.log().and_then(|log| log.too_dry.clone().ok()))
        .column("wet_basis", |of| of.slice().map(|slice| Percent::of_part(slice.wet)))
        .column("dry_basis", |of| of.slice().map(|slice| Percent::of_part(dry_of_wet(slice.wet))))
        .column("remark", |of| of.log().and_then(|log| log.too_dry.as_ref().err()).map(Gap::to_string))
        .grid(findings.choice.units)
}
