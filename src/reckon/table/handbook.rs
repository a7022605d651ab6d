//! The tables of what the handbook holds, with what a farm adds to it.

use std::collections::BTreeSet;

use super::{Grid, Sheet, words};
use crate::book::Book;
use crate::quantity::Units;
use crate::reckon::Findings;
use crate::reckon::findings::Pairing;
use crate::record::Id;
use crate::record::evidence::Way;
use crate::record::said::Stage;
use crate::record::strain::Class;

pub fn mushrooms(book: &Book, units: Units) -> Grid {
    Sheet::of(book.mushrooms.values())
        .column("mushroom", |of| &of.id)
        .column("name", |of| of.name())
        .column("scientific", |of| &of.record.scientific)
        .column("part_of", |of| of.part_of.as_ref().map(|group| &group.id))
        .column("methods", |of| words(of.methods.iter().map(|method| method.id.as_str())))
        .column("answers_to_soaking", |of| of.record.answers_to_soaking)
        .column("look_alikes", |of| of.record.look_alikes.len())
        .grid(units)
}

pub fn woods(book: &Book, units: Units) -> Grid {
    let green = |moisture: &crate::record::wood::Moisture| moisture.green.clone();
    Sheet::of(book.woods.values())
        .column("wood", |of| &of.id)
        .column("name", |of| of.name())
        .column("scientific", |of| &of.record.scientific)
        .column("symbol", |of| of.record.symbol.as_ref())
        .column("part_of", |of| of.part_of.as_ref().map(|group| &group.id))
        .column("broadleaved", |of| !of.is_conifer())
        .number("basic_density", 3, |of| of.record.density.as_ref().map(|density| density.basic))
        .column("green_moisture", |of| of.record.moisture.as_ref().and_then(green))
        .column("bark", |of| of.record.bark.as_ref().map(|bark| &bark.share))
        .column("source", |of| of.record.density.as_ref().map(|density| density.source.as_str()))
        .column("mark", |of| of.record.density.as_ref().map(|density| density.mark.words()))
        .grid(units)
}

/// The rating of a pair in one way alone.
fn rating(pair: &Pairing, way: Way) -> Option<u32> {
    pair.verdicts.get(&way).map(|found| u32::from(found.rating))
}

/// A pair has its verdict for the way grown here, the way whose verdict that is, and what each way has by itself.
pub fn pairings(findings: &Findings) -> Grid {
    Sheet::of(findings.pairings())
        .column("mushroom", |of| &of.mushroom.id)
        .column("wood", |of| &of.wood.id)
        .column("rating", |of| of.rating().map(u32::from))
        .column("word", |of| of.word.words())
        .number("agreement", 2, Pairing::agreement)
        .column("sources", |of| of.sources)
        .column("basis", |of| of.reach.word())
        .column("way", |of| of.way.id())
        .column("by", |of| of.by().map(Way::id))
        .column("log", |of| rating(of, Way::Log))
        .column("totem", |of| rating(of, Way::Totem))
        .column("buried_log", |of| rating(of, Way::BuriedLog))
        .column("stump", |of| rating(of, Way::Stump))
        .column("chip_bed", |of| rating(of, Way::ChipBed))
        .column("kin", |of| kin(findings, of))
        .grid(findings.choice.units)
}

/// The kin of an untried pair, each with its verdict and the way to which that belongs.
fn kin(findings: &Findings, of: &Pairing) -> Option<String> {
    let kin = findings.kin(&of.mushroom.id, &of.wood).iter();
    let kin: Vec<String> = kin.map(|kin| format!("{} {}, {}", kin.wood.id, kin.word.words(), kin.way.how())).collect();
    (!kin.is_empty()).then(|| kin.join("; "))
}

/// A strain has a row for each band of temperatures at which it fruits, or one without.
pub fn strains(book: &Book, units: Units) -> Grid {
    let rows = book.strains.values().flat_map(|strain| {
        let all = strain.record.temperatures.iter();
        let mut bands: Vec<_> =
            all.filter(|band| matches!(band.stage, Stage::Fruiting | Stage::Pinning)).map(Some).collect();
        if bands.is_empty() {
            bands.push(None);
        }
        bands.into_iter().map(move |band| (strain, band))
    });
    Sheet::of(rows)
        .column("strain", |(strain, _)| &strain.id)
        .column("name", |(strain, _)| &strain.record.name)
        .column("mushroom", |(strain, _)| &strain.mushroom.id)
        .column("class", |(strain, _)| strain.record.class.map(Class::words))
        .column("stage", |(_, band)| band.map(|band| band.stage.words()))
        .column("low", |(_, band)| band.map(|band| &band.range.low))
        .column("high", |(_, band)| band.map(|band| &band.range.high))
        .column("source", |(_, band)| band.map(|band| band.source.as_str()))
        .column("mark", |(_, band)| band.map(|band| band.mark.words()))
        .grid(units)
}

pub fn troubles(book: &Book, units: Units) -> Grid {
    let rows = book.troubles.values().map(|trouble| (trouble, &trouble.record));
    Sheet::of(rows)
        .column("trouble", |(trouble, _)| &trouble.id)
        .column("name", |(_, record)| &record.name)
        .column("shows", |(_, record)| words(record.shows.iter().map(|part| part.id())))
        .column("when", |(_, record)| words(record.when.iter().map(|stage| stage.id())))
        .column("causes", |(_, record)| words(record.causes.iter().map(|cause| cause.cause.as_str())))
        .column("says_when_to_give_up", |(_, record)| record.give_up.is_some())
        .column("mushrooms", |(trouble, _)| words(trouble.mushrooms.iter().map(|mushroom| mushroom.id.as_str())))
        .column("sources", |(_, record)| {
            let causes = record.causes.iter().map(|cause| cause.source.as_str());
            let said = record.remedies.iter().chain(&record.give_up).map(|said| said.source.as_str());
            words(causes.chain(said).collect::<BTreeSet<_>>())
        })
        .grid(units)
}

pub fn cautions(book: &Book, units: Units) -> Grid {
    Sheet::of(book.cautions.values().map(|caution| (&caution.id, &caution.record)))
        .column("caution", |(id, _)| id)
        .column("hazard", |(_, record)| &record.hazard)
        .column("tasks", |(_, record)| words(record.tasks.iter().map(|task| task.id())))
        .column("severity", |(_, record)| record.severity.id())
        .column("protects", |(_, record)| record.protects.join(", "))
        .column("defer", |(_, record)| record.defer)
        .column("says", |(_, record)| &record.says)
        .column("sources", |(_, record)| words(record.sources.iter().map(Id::as_str)))
        .column("mark", |(_, record)| record.mark.words())
        .grid(units)
}

pub fn sources(book: &Book, units: Units) -> Grid {
    Sheet::of(book.sources.values().map(|source| (&source.id, &source.record)))
        .column("source", |(id, _)| id)
        .column("short", |(_, record)| &record.short)
        .column("authors", |(_, record)| &record.authors)
        .number("year", 0, |(_, record)| record.year.map(f64::from))
        .column("title", |(_, record)| &record.title)
        .column("number", |(_, record)| record.number.as_ref())
        .column("kind", |(_, record)| record.kind.words())
        .column("team", |(_, record)| record.team.as_ref())
        .column("read", |(_, record)| record.read.as_ref())
        .grid(units)
}
