//! The tables of a log: what it weighs, takes up, may be lifted at and has dried to.

use either::Either;

use super::{Grid, Sheet};
use crate::book::Book;
use crate::reckon::findings::{Filling, Load, LogWeight, TaskFinding, WoodWeight};
use crate::reckon::lifting::{Stretch, advice};
use crate::reckon::{Findings, Gap};

pub fn weights(book: &Book, findings: &Findings) -> Grid {
    let told = |of: &&WoodWeight| of.is_own() || of.wood.record.density.is_some();
    let known = findings.weights().iter().filter(|of| of.wood.is_species()).filter(told);
    let end = |log: &LogWeight, end: usize| log.span(false).ok().map(|ends| ends[end].clone());
    Sheet::of(known.flat_map(|of| of.logs.iter().map(move |log| (of, log))))
        .column("wood", |(of, _)| &of.wood.id)
        .column("diameter", |(_, log)| &log.diameter)
        .column("length", |_| &book.farm.record.log.length)
        .column("mass", |(_, log)| &log.green)
        .column("mass_least", |(_, log)| end(log, 0))
        .column("mass_most", |(_, log)| end(log, 1))
        .column("mass_soaked", |(_, log)| log.heaviest(true).ok())
        .column("heaviest", |(of, _)| of.ends.as_ref().ok().map(|[_, most]| most.of.words()))
        .column("own_logs", |(of, _)| of.own.map_or(0, |own| own.logs))
        .column("basis", |(of, log)| match &log.green.result {
            Ok(_) if of.is_own() => "logs weighed here".to_owned(),
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

/// A lift of a log has a row for each length of the job; its weight is the most that the log weighs.
pub fn lifting<'a>(book: &'a Book, findings: &'a Findings) -> Grid {
    let of_task = |task: &'a TaskFinding| findings.loads().map(move |wood| (task, wood));
    let jobs = |(task, wood): (&'a TaskFinding, &'a WoodWeight)| {
        let loads = move |stretch| task.loads(&wood.logs, stretch).map(move |load| (task, wood, load));
        Stretch::ALL.into_iter().flat_map(loads)
    };
    let rows: Vec<(&TaskFinding, &WoodWeight, Load)> =
        findings.lifts().iter().flat_map(of_task).flat_map(jobs).collect();
    Sheet::of(&rows)
        .column("task", |(task, ..)| &task.id)
        .column("wood", |(_, wood, _)| &wood.wood.id)
        .column("diameter", |(.., load)| &load.log.diameter)
        .column("length", |_| &book.farm.record.log.length)
        .column("soaked", |(task, ..)| task.soaked)
        .number("a_minute", 2, |(task, ..)| task.lift.a_minute)
        .column("hours", |(.., load)| load.limit.stretch.hours())
        .column("hours_of_the_farm", |(task, _, load)| task.named == Some(load.limit.stretch))
        .column("mass", |(task, _, load)| load.log.heaviest(task.soaked).ok())
        .column("rwl", |(.., load)| load.limit.lowest())
        .to(1)
        .number("li", 2, |(.., load)| load.index.result.as_ref().ok().map(|index| index.0))
        .column("advice", |(.., load)| {
            load.index.result.as_ref().map_or_else(Gap::to_string, |of| advice(*of).to_owned())
        })
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
