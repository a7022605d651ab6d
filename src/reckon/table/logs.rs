//! The tables of a log: what it weighs, takes up, may be lifted at and has dried to.

use either::Either;

use super::{Grid, Sheet};
use crate::book::Book;
use crate::reckon::findings::{Filling, LimitFinding, LogWeight, TaskFinding, WoodWeight};
use crate::reckon::formula::Figure;
use crate::reckon::lifting::{Index, advice};
use crate::reckon::{Findings, Gap};

pub fn weights(book: &Book, findings: &Findings) -> Grid {
    let known = findings.weights().iter().filter(|of| of.wood.is_species() && of.wood.record.density.is_some());
    Sheet::of(known.flat_map(|of| of.logs.iter().map(move |log| (of, log))))
        .column("wood", |(of, _)| &of.wood.id)
        .column("diameter", |(_, log)| &log.diameter)
        .column("length", |_| &book.farm.record.log.length)
        .column("mass", |(_, log)| &log.green)
        .column("mass_least", |(_, log)| log.range.as_ref().map(|[least, _]| least))
        .column("mass_most", |(_, log)| log.range.as_ref().map(|[_, most]| most))
        .column("basis", |(of, log)| match &log.green.result {
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
        .column("holes_per_log", Filling::whole_holes)
        .column("holes", Filling::all_holes)
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
    wood: &'a WoodWeight,
    log: &'a LogWeight,
    limit: &'a LimitFinding,
    index: Figure<Index>,
}

pub fn lifting<'a>(book: &'a Book, findings: &'a Findings) -> Grid {
    let lifts = |task: &'a TaskFinding, wood: &'a WoodWeight| {
        let logs = wood.logs.iter().zip(&task.limits).zip(task.indexes(&wood.logs));
        logs.map(move |((log, limit), index)| Lift { task, wood, log, limit, index })
    };
    let of_task = |task| findings.loads().flat_map(move |wood| lifts(task, wood));
    let rows: Vec<Lift> = findings.lifts().iter().flat_map(of_task).collect();
    Sheet::of(&rows)
        .column("task", |of| &of.task.id)
        .column("wood", |of| &of.wood.wood.id)
        .column("diameter", |of| &of.log.diameter)
        .column("length", |_| &book.farm.record.log.length)
        .column("soaked", |of| of.task.soaked)
        .column("mass", |of| of.log.mass(of.task.soaked).ok())
        .column("rwl", |of| of.limit.lowest())
        .to(1)
        .number("li", 2, |of| of.index.result.as_ref().ok().map(|index| index.0))
        .column("advice", |of| of.index.result.as_ref().map_or_else(Gap::to_string, |of| advice(*of).to_owned()))
        .grid(findings.choice.units)
}

pub fn moisture(findings: &Findings) -> Grid {
    let weighed = findings.readings().iter().map(Either::Left);
    Sheet::of(weighed.chain(findings.slices().iter().map(Either::Right)))
        .column("batch", |of| of.either(|log| &log.batch.id, |slice| &slice.batch.id))
        .column("of", |of| of.either(|_| "sample log", |_| "slice"))
        .column("label", |of| of.left().map(|log| log.label.to_string()))
        .column("date", |of| of.either(|log| log.date, |slice| slice.slice.date))
        .column("mass_first", |of| of.either(|log| &log.then, |slice| &slice.slice.wet))
        .column("mass_then", |of| of.either(|log| &log.now, |slice| &slice.slice.dry))
        .column("lost", |of| of.left().map(|log| &log.lost))
        .column("too_dry", |of| of.left().and_then(|log| log.too_dry.clone().ok()))
        .column("wet_basis", |of| of.right().map(|slice| &slice.water[0]))
        .column("dry_basis", |of| of.right().map(|slice| &slice.water[1]))
        .column("remark", |of| of.left().and_then(|log| log.too_dry.as_ref().err()).map(Gap::to_string))
        .grid(findings.choice.units)
}
