//! All woods, and one of them.

use std::sync::Arc;

use serde::Serialize;

use super::part::caution::Caution;
use super::part::cite::{Cite, Line};
use super::part::pair::{Pair, SaidRow, said};
use super::part::sheet::Sheet;
use super::part::table::{Part, Table, cell, list, or_dash};
use super::part::weight::weight_note;
use super::part::{Anchor, Figure, capital, caution, date, pair, rank_words};
use super::{Context, Page};
use crate::book::{Wood, Writer};
use crate::quantity::measure::rounded;
use crate::quantity::{DayOfYear, Length};
use crate::reckon::findings::season::felling;
use crate::reckon::findings::{Role, Row, Word};
use crate::reckon::formula::Place;
use crate::reckon::{Topic, bark};
use crate::record::Kind;
use crate::record::caution::Task;
use crate::record::said::Mark;
use crate::record::wood::{DensityBasis, Leaf, Rank, SapwoodClass, Whom};

/// The list of woods.
#[derive(Debug, Serialize)]
pub struct Index {
    own: Option<Table>,
    broad: Option<Table>,
    needle: Option<Table>,
    groups: Option<Table>,
}

/// One wood.
#[derive(Debug, Serialize)]
pub struct View {
    name: String,
    also: Vec<String>,
    scientific: String,
    formerly: Vec<String>,
    family: Option<String>,
    leaf: &'static str,
    rank: Option<&'static str>,
    part_of: Option<Anchor>,
    members: Vec<Anchor>,
    about: Option<String>,
    own: bool,
    pairs: Vec<Pair>,
    bare: Vec<Pair>,
    general: Vec<General>,
    felling: Felling,
    facts: Vec<Fact>,
    weights: Vec<Weight>,
    weight_note: &'static str,
    length: String,
    hazards: Vec<Hazard>,
    quarantine: Vec<Line>,
    remarks: Vec<Line>,
    cautions: Vec<Caution>,
    notes: Vec<Anchor>,
    safety: String,
    sheet: Sheet,
}

/// What was said in general, without naming the wood or without naming a mushroom.
#[derive(Debug, Serialize)]
struct General {
    mushroom: Anchor,
    wood: Anchor,
    row: SaidRow,
}

/// When trees of this wood may come down.
#[derive(Debug, Serialize)]
struct Felling {
    when: Vec<String>,
    gap: Option<String>,
    taken: Vec<Anchor>,
    working: String,
    at_hand: bool,
}

/// A fact with its figure and its source.
#[derive(Debug, Serialize)]
struct Fact {
    name: &'static str,
    figure: Figure,
    cites: Vec<Cite>,
    note: Option<String>,
}

/// The weight of a log.
#[derive(Debug, Serialize)]
struct Weight {
    diameter: String,
    figure: Figure,
}

/// A hazard as pages show it.
#[derive(Debug, Serialize)]
struct Hazard {
    whom: &'static str,
    says: String,
    cite: Cite,
}

/// The view of the list of woods.
pub fn index(context: &Context<'_>) -> Index {
    let at_hand = |wood: &Wood| context.findings.woods().iter().any(|own| own.id == wood.id);
    let titled = |title: &str, wanted: &dyn Fn(&Wood) -> bool| {
        let mut woods: Vec<_> = context.book.woods.values().filter(|wood| wanted(wood)).collect();
        woods.sort_by_key(|wood| wood.name().to_lowercase());
        Table::of("facts stack", title, woods)
            .head("Wood", |wood| {
                let writer = wood.origin.writer;
                let mark = (writer != Writer::Handbook).then(|| cell![" ", Part::Mark(writer.words())]);
                cell![Anchor::wood(wood, context), mark]
            })
            .column("Scientific name", |wood| Part::Sci(wood.record.scientific.clone()))
            .column("What thrives on it", |wood| {
                let pairs = context.findings.pairings().iter();
                let best = pairs.filter(|pair| pair.wood.id == wood.id && pair.word == Word::Thrives);
                let best = best.filter(|pair| pair.mushroom.is_species());
                or_dash(list(", ", best.map(|pair| Anchor::mushroom(&pair.mushroom, context))))
            })
            .done()
    };
    Index {
        own: titled("Woods we have", &|wood| at_hand(wood)),
        broad: titled("Other broadleaved woods", &|wood| !at_hand(wood) && wood.is_species() && !wood.is_conifer()),
        needle: titled("Conifers", &|wood| !at_hand(wood) && wood.is_species() && wood.is_conifer()),
        groups: titled("Groups that sources name", &|wood| !at_hand(wood) && !wood.is_species()),
    }
}

/// The view of one wood.
pub fn view(wood: &Arc<Wood>, context: &Context<'_>) -> View {
    let record = &wood.record;
    let book = context.book;
    let mut pairs: Vec<_> = context
        .findings
        .pairings()
        .iter()
        .filter(|pair| pair.wood.id == wood.id && pair.mushroom.record.rank != Rank::Any)
        .collect();
    pairs.sort_by(|a, b| {
        let grown = |id: &str| !context.findings.mushrooms().iter().any(|mushroom| mushroom.id == id);
        (!a.mushroom.is_species(), pair::order(a).0, pair::order(a).1, grown(&a.mushroom.id), a.mushroom.name()).cmp(&(
            !b.mushroom.is_species(),
            pair::order(b).0,
            pair::order(b).1,
            grown(&b.mushroom.id),
            b.mushroom.name(),
        ))
    });
    let (full, bare): (Vec<_>, Vec<_>) =
        pairs.into_iter().partition(|pair| pair.consensus.is_some() || pair.is_direct());
    let members = book.woods.values().filter(|other| other.part_of.as_ref().is_some_and(|group| group.id == wood.id));
    View {
        name: capital(wood.name()),
        also: record.names.iter().skip(1).cloned().collect(),
        scientific: record.scientific.clone(),
        formerly: record.formerly.clone(),
        family: record.family.clone(),
        leaf: match record.leaf {
            Leaf::Broad => "broadleaved",
            Leaf::Needle => "conifer",
        },
        rank: (record.rank != Rank::Species).then(|| rank_words(record.rank)),
        part_of: wood.part_of.as_ref().map(|group| Anchor::wood(group, context)),
        members: members.map(|member| Anchor::wood(member, context)).collect(),
        about: record.about.clone(),
        own: wood.origin.writer != Writer::Handbook,
        pairs: full.into_iter().map(|pair| Pair::of(pair, context)).collect(),
        bare: bare.into_iter().map(|pair| Pair::of(pair, context)).collect(),
        general: general(wood, context),
        felling: when_felled(wood, context),
        facts: facts(wood, context),
        weights: weights(wood, context),
        weight_note: weight_note(wood),
        length: book.farm.record.log.length.show(context.units()),
        hazards: hazards(wood, context),
        quarantine: record.quarantine.iter().map(|row| Line::said("", row, context)).collect(),
        remarks: record.remarks.iter().map(|row| Line::said("", row, context)).collect(),
        cautions: caution::for_tasks(
            &[Task::Survey, Task::Felling, Task::Bucking],
            |found| !found.woods.is_empty() && found.comes_with_wood(wood),
            context,
        ),
        notes: Anchor::notes_about(Kind::Wood, &wood.id, context),
        safety: context.route.to(&Page::Safety),
        sheet: Sheet::behind(Kind::Wood, &wood.id, &wood.origin, context),
    }
}

/// Rows about any hardwood or any conifer, and rows about this wood that tie it to no mushroom.
fn general(wood: &Wood, context: &Context<'_>) -> Vec<General> {
    let book = context.book;
    let rows = book.evidence.iter().enumerate().filter(|(_, row)| {
        let any_wood =
            row.wood.record.rank == Rank::Any && row.wood.record.leaf == wood.record.leaf && row.wood.id != wood.id;
        let any_mushroom = row.mushroom.record.rank == Rank::Any && wood.line().any(|id| id == row.wood.id);
        any_wood || any_mushroom
    });
    rows.map(|(evidence, row)| General {
        mushroom: Anchor::mushroom(&row.mushroom, context),
        wood: Anchor::wood(&row.wood, context),
        row: said(&Row { evidence, inherited: true, role: Role::Mention }, context),
    })
    .collect()
}

fn when_felled(wood: &Arc<Wood>, context: &Context<'_>) -> Felling {
    let findings = context.findings;
    let found = felling(findings, wood);
    Felling {
        when: found.intervals.iter().map(|interval| date::stretch(*interval, findings.season)).collect(),
        gap: found.gap.as_ref().map(ToString::to_string),
        taken: found.taken.iter().map(|(window, _)| Anchor::window(window, context)).collect(),
        working: context.route.at(&Page::Working(Topic::Seasons), "felling"),
        at_hand: findings.woods().iter().any(|own| own.id == wood.id) && !wood.is_conifer(),
    }
}

fn facts(wood: &Wood, context: &Context<'_>) -> Vec<Fact> {
    let record = &wood.record;
    let working = || Place::new(Topic::Weights, wood.id.clone());
    let cite = |id, mark| vec![Cite::of(id, mark, context)];
    let mut facts = Vec::new();
    let mut fact = |name, text: String, cites, note| {
        facts.push(Fact { name, figure: Figure::worked(text, &working(), context), cites, note });
    };
    if let Some(density) = &record.density {
        let note = match density.basis {
            DensityBasis::Measured => None,
            DensityBasis::GenusAverage => {
                Some("an average of the genus or of all hardwoods, not measured on this species".to_owned())
            }
            DensityBasis::Model => {
                Some("estimated by a model over many studies; runs about a tenth above handbook values".to_owned())
            }
        };
        let spread = density.deviation.map_or_else(String::new, |spread| format!(" ± {}", rounded(spread, 3)));
        fact("Basic density (water = 1)", rounded(density.basic, 3) + &spread, vec![Cite::by(density, context)], note);
    }
    if let Some((dry, density)) = record.density.as_ref().and_then(|density| Some((density.at_12_percent?, density))) {
        let cites = vec![Cite::by(density, context)];
        fact("Density at 12 % moisture (water = 1)", rounded(dry, 3), cites, None);
    }
    if let Some(moisture) = &record.moisture {
        if let Some(green) = &moisture.green {
            fact(
                "Water in the green stem, of dry weight",
                green.show(context.units()),
                vec![Cite::by(moisture, context)],
                None,
            );
        }
        let parts = moisture.parts_source.as_ref().map(|source| (source, moisture.parts_mark.unwrap_or_default()));
        for (name, part) in
            [("Water in green heartwood", &moisture.heartwood), ("Water in green sapwood", &moisture.sapwood)]
        {
            if let (Some(part), Some((source, mark))) = (part, parts) {
                fact(name, part.show(context.units()), cite(source, mark), None);
            }
        }
    }
    if let Some(bark) = &record.bark {
        fact("Bark, of the volume of the wood", bark.share.show(context.units()), vec![Cite::by(bark, context)], None);
        let found = context.findings.weight(wood).into_iter().flat_map(|of| &of.bark);
        let at = Length::of_inches(bark::ACROSS);
        for (fit, thick) in bark.fits.iter().zip(found) {
            let thick = thick.show(context.units());
            let of = if fit.of_group { "; line of a group of species" } else { "" };
            let note = format!("at {} across, {}{of}", at.show(context.units()), fit.region);
            fact("Bark thickness", thick, cite(&fit.source, Mark::Derived), Some(note));
        }
    }
    facts.extend(words_of(wood, context));
    facts
}

/// Facts without a number.
fn words_of(wood: &Wood, context: &Context<'_>) -> Vec<Fact> {
    let record = &wood.record;
    let mut facts = Vec::new();
    if let Some(sapwood) = &record.sapwood {
        let text = match sapwood.class {
            SapwoodClass::Thin => "thin: a few rings",
            SapwoodClass::Medium => "medium: an inch or two",
            SapwoodClass::Thick => "thick: most of a log-sized stem",
        };
        let cites = vec![Cite::by(sapwood, context)];
        facts.push(Fact { name: "Sapwood ring", figure: Figure::plain(text.to_owned()), cites, note: None });
    }
    if let Some(decay) = &record.decay_resistance {
        let cites = vec![Cite::by(decay, context)];
        let note = Some("heartwood only; sapwood of every species decays".to_owned());
        facts.push(Fact { name: "Heartwood against decay", figure: Figure::plain(decay.class.clone()), cites, note });
    }
    if let Some(season) = &record.season {
        let cites = vec![Cite::by(season, context)];
        let days = |deviation: f64| format!("± {} days between years, at the source's own site", rounded(deviation, 1));
        let figure = |day: DayOfYear| {
            Figure::sourced(day.show(), context.route.href(context.route.record(Kind::Source, season.source.as_str())))
        };
        facts.push(Fact {
            name: "Buds burst",
            figure: figure(season.bud_burst),
            cites: cites.clone(),
            note: Some(days(season.bud_burst_deviation)),
        });
        if let Some(colour) = season.leaf_colour {
            let note = season.leaf_colour_deviation.map(days);
            facts.push(Fact {
                name: "Half of the leaves coloured",
                figure: figure(colour),
                cites: cites.clone(),
                note,
            });
        }
        if let Some(fall) = season.leaf_fall {
            facts.push(Fact { name: "Half of the leaves down", figure: figure(fall), cites, note: None });
        }
    }
    facts
}

fn weights(wood: &Wood, context: &Context<'_>) -> Vec<Weight> {
    let logs = context.findings.weight(wood).into_iter().flat_map(|of| &of.logs);
    logs.map(|log| Weight { diameter: log.diameter.show(context.units()), figure: Figure::of(&log.green, context) })
        .collect()
}

fn hazards(wood: &Wood, context: &Context<'_>) -> Vec<Hazard> {
    let hazards = wood.record.hazards.iter();
    hazards
        .map(|hazard| Hazard {
            whom: match hazard.whom {
                Whom::People => "People",
                Whom::Animals => "Animals",
            },
            says: hazard.says.clone(),
            cite: Cite::by(hazard, context),
        })
        .collect()
}
