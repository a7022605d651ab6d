//! All woods, and one of them.

use std::collections::BTreeSet;
use std::sync::Arc;

use serde::Serialize;

use super::part::alike::Alike;
use super::part::caution::Caution;
use super::part::cite::{Cite, Line};
use super::part::pair::{Pair, SaidRow, Unspoken, said};
use super::part::photo::{self, Photo};
use super::part::rule::Rule;
use super::part::sheet::Sheet;
use super::part::table::{Part, Table, cell, list, or_dash};
use super::part::weight::{about_range, own_words, stem, weight_note};
use super::part::{
    Anchor, Figure, alike, capital, caution, character, date, lift, pair, range, rank_words, rule, untagged,
};
use super::{Context, Page};
use crate::book::{Wood, Writer};
use crate::page::figure::sections::{self, Section};
use crate::quantity::measure::rounded;
use crate::quantity::{Length, Percent};
use crate::reckon::days::Interval;
use crate::reckon::findings::season::felling;
use crate::reckon::findings::{LogWeight, Role, Row, Word};
use crate::reckon::formula::Place;
use crate::reckon::{Topic, bark};
use crate::record::Kind;
use crate::record::character::Character;
use crate::record::region::Half;
use crate::record::said::Mark;
use crate::record::wood::{DensityBasis, Hazard, Rank, SapwoodClass};

/// Mushrooms named on its label.
const BEST: usize = 4;

/// The list of woods.
#[derive(Debug, Serialize)]
pub struct Index {
    keys: [Anchor; 3],
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
    /// Mushrooms of which nobody speaks on this wood, but on a kindred one.
    unspoken: Vec<Unspoken>,
    /// What was said in general, without naming the wood or without naming a mushroom.
    general: Vec<(Anchor, Anchor, SaidRow)>,
    felling: Felling,
    facts: Vec<Fact>,
    /// The mushrooms that do best on it.
    best: Vec<Anchor>,
    /// Whom it hurts.
    hurts: Vec<&'static str>,
    /// Logs seen at their end, with what they weigh.
    sections: Option<String>,
    /// Diameters of logs, each with the weight green and soaked.
    weights: Vec<(String, Figure, String)>,
    /// Logs of a tree without a tag, by its diameter and height.
    untagged: Option<Table>,
    weight_note: &'static str,
    /// What this farm's own logs say.
    weighed: Option<String>,
    thickest: Option<Table>,
    /// The thickest log for one person by the usual lift.
    alone: Option<String>,
    length: String,
    /// Woods that are taken for it, each with the two compared.
    alike: Vec<(Alike, Option<Table>)>,
    /// What it looks like.
    characters: Option<Table>,
    /// Why it is left standing here.
    refused: Vec<(String, Option<Cite>)>,
    hazards: Vec<(Hazard, Cite)>,
    /// What it is no good for, and why.
    warned: Vec<Line>,
    worth: Vec<Line>,
    rules: Vec<Rule>,
    quarantine: Vec<Line>,
    remarks: Vec<Line>,
    cautions: Vec<Caution>,
    photos: Vec<Photo>,
    notes: Vec<Anchor>,
    safety: String,
    sheet: Sheet,
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
    cite: Cite,
    note: Option<String>,
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
        keys: [Page::KeyWinter, Page::KeySummer, Page::KeyWays].map(|page| Anchor::page(&page, context)),
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
    let weight = context.findings.weight(wood);
    let mut pairs: Vec<_> = context
        .findings
        .pairings()
        .iter()
        .filter(|pair| pair.wood.id == wood.id && pair.mushroom.record.rank != Rank::Any)
        .collect();
    pairs.sort_by_key(|&pair| {
        let grown = context.findings.mushrooms().iter().any(|mushroom| mushroom.id == pair.mushroom.id);
        let (word, inherited, ..) = pair::order(pair);
        (!pair.mushroom.is_species(), word, inherited, !grown, pair.mushroom.name())
    });
    let (full, bare): (Vec<_>, Vec<_>) =
        pairs.into_iter().partition(|pair| pair.consensus().is_some() || pair.is_direct());
    let members = book.woods.values().filter(|other| other.part_of.as_ref().is_some_and(|group| group.id == wood.id));
    View {
        name: capital(wood.name()),
        also: record.names.iter().skip(1).cloned().collect(),
        scientific: record.scientific.clone(),
        formerly: record.formerly.clone(),
        family: record.family.clone(),
        leaf: if wood.is_conifer() { "conifer" } else { "broadleaved" },
        rank: (record.rank != Rank::Species).then(|| rank_words(record.rank)),
        part_of: wood.part_of.as_ref().map(|group| Anchor::wood(group, context)),
        members: members.map(|member| Anchor::wood(member, context)).collect(),
        about: record.about.clone(),
        own: wood.origin.writer != Writer::Handbook,
        pairs: full.into_iter().map(|pair| Pair::of(pair, context)).collect(),
        bare: bare.into_iter().map(|pair| Pair::of(pair, context)).collect(),
        unspoken: book
            .mushrooms
            .values()
            .filter(|mushroom| mushroom.is_species())
            .filter_map(|mushroom| Unspoken::of(Anchor::mushroom(mushroom, context), mushroom, wood, context))
            .collect(),
        general: general(wood, context),
        felling: when_felled(wood, context),
        facts: facts(wood, context),
        best: best(wood, context),
        hurts: wood.hurts(),
        alike: alike::all(wood, context)
            .into_iter()
            .filter_map(|pair| Some((alike::compared(wood, book.woods.get(&pair.id)?, context), pair)))
            .map(|(table, pair)| (pair, table))
            .collect(),
        characters: characters(wood, context),
        refused: character::refused(wood, context),
        sections: sections(wood, context),
        weights: weights(wood, context),
        untagged: (record.rank == Rank::Species).then(|| untagged::table(wood, context)).flatten(),
        weight_note: weight.map(weight_note).unwrap_or_default(),
        weighed: weight.and_then(|of| own_words(of, context)),
        thickest: weight.and_then(|of| lift::thickest_of(of, context)),
        alone: weight.and_then(|of| lift::ours(of, context)).map(|(_, words)| words),
        length: book.farm.record.log.length.show(context.units()),
        warned: worth(wood, true, context),
        worth: worth(wood, false, context),
        hazards: record.hazards.iter().map(|hazard| (hazard.clone(), Cite::by(hazard, context))).collect(),
        rules: rule::of_wood(wood, context),
        quarantine: Line::all(&record.quarantine, context),
        remarks: Line::all(&record.remarks, context),
        cautions: caution::of_wood(wood, context),
        photos: photo::all(&record.photos, context),
        notes: Anchor::notes_about(Kind::Wood, &wood.id, context),
        safety: context.route.to(&Page::Safety),
        sheet: Sheet::behind(Kind::Wood, &wood.id, &wood.origin, context),
    }
}

/// The mushrooms that do best on it, those that the farm grows first.
fn best(wood: &Wood, context: &Context<'_>) -> Vec<Anchor> {
    let findings = context.findings;
    let good = |word: Word| matches!(word, Word::Thrives | Word::DoesWell);
    let pairs = findings.pairings().iter().filter(|pair| pair.wood.id == wood.id && good(pair.word));
    let mut pairs: Vec<_> = pairs.filter(|pair| pair.mushroom.is_species()).collect();
    let grown = |id: &str| findings.mushrooms().iter().any(|mushroom| mushroom.id == id);
    pairs.sort_by_key(|&pair| (pair.word, !grown(&pair.mushroom.id), pair::order(pair)));
    pairs.into_iter().take(BEST).map(|pair| Anchor::mushroom(&pair.mushroom, context)).collect()
}

/// Its logs seen at their end, beside the thickest that one person may lift.
fn sections(wood: &Wood, context: &Context<'_>) -> Option<String> {
    let units = context.units();
    let weight = context.findings.weight(wood)?;
    let section = |log: &LogWeight| {
        let says = [log.diameter.show(units), about_range(&log.span(false).ok()?, units)];
        Some(Section { across: log.diameter.inches(), says })
    };
    // The thinnest, the middle and the thickest: more would leave no room for their words.
    let shown = BTreeSet::from([0, weight.logs.len() / 2, weight.logs.len().saturating_sub(1)]);
    let logs: Vec<Section> = shown.into_iter().filter_map(|at| section(weight.logs.get(at)?)).collect();
    let limit = lift::ours(weight, context)
        .map(|(most, words)| Section { across: most.inches(), says: [words, "one person".to_owned()] });
    let title = format!("Logs of {} at their end, to one scale", wood.name());
    (!logs.is_empty()).then(|| sections::svg(&format!("logs-{}", wood.id), &title, &logs, limit.as_ref()))
}

/// Rows about any hardwood or any conifer, and rows about this wood that tie it to no mushroom.
fn general(wood: &Wood, context: &Context<'_>) -> Vec<(Anchor, Anchor, SaidRow)> {
    let book = context.book;
    let rows = book.evidence.iter().enumerate().filter(|(_, row)| {
        let any_wood =
            row.wood.record.rank == Rank::Any && row.wood.record.leaf == wood.record.leaf && row.wood.id != wood.id;
        let any_mushroom = row.mushroom.record.rank == Rank::Any && wood.line().any(|id| id == row.wood.id);
        any_wood || any_mushroom
    });
    rows.map(|(evidence, row)| {
        let said = said(&Row { evidence, inherited: true, role: Role::Mention, grade: None }, context);
        (Anchor::mushroom(&row.mushroom, context), Anchor::wood(&row.wood, context), said)
    })
    .collect()
}

/// What a standing tree is worth, or what it is no good for.
fn worth(wood: &Wood, warns: bool, context: &Context<'_>) -> Vec<Line> {
    let rows = wood.worth().into_iter().filter(|row| row.warns == warns);
    rows.map(|row| Line::cited(row.good_for.words(), &row.says, row, context)).collect()
}

fn when_felled(wood: &Arc<Wood>, context: &Context<'_>) -> Felling {
    let findings = context.findings;
    let found = felling(findings, wood);
    let of_farm = findings.fellings().iter().position(|of| of.woods.iter().any(|own| own.id == wood.id));
    let stretch = |interval: Interval| {
        let whole = date::stretch(interval, findings.season, context.units());
        let best = of_farm.and_then(|felling| findings.well_rested(felling, interval));
        let best = best.filter(|best| *best != findings.season.dates(interval));
        let best = best.map(|(from, to)| format!("; best {}", date::short(from, to, context.units())));
        date::with_basis(whole + &best.unwrap_or_default(), found.basis(interval))
    };
    Felling {
        when: found.intervals.iter().map(|interval| stretch(*interval)).collect(),
        gap: found.gap.as_ref().map(ToString::to_string),
        taken: found.taken.iter().map(|(window, _)| Anchor::window(window, context)).collect(),
        working: context.route.at(&Page::Working(Topic::Seasons), "felling"),
        at_hand: findings.woods().iter().any(|own| own.id == wood.id) && !wood.is_conifer(),
    }
}

/// What it looks like, character by character.
fn characters(wood: &Wood, context: &Context<'_>) -> Option<Table> {
    let told = Character::ALL.into_iter().filter_map(|asked| Some((asked, wood.record.characters.told(asked)?)));
    let told: Vec<_> = told.collect();
    Table::of("facts stack", "As records have it", &told)
        .head("Character", |(asked, _)| character::name(*asked, context))
        .column("On this wood", |(asked, told)| {
            let note = told.cited.note().map(|note| format!(". {note}"));
            character::states(*asked, &told.states, context) + &note.unwrap_or_default()
        })
        .column("Source", |(_, told)| Cite::of(told.cited.source(), told.cited.mark(), context))
        .done()
}

fn facts(wood: &Wood, context: &Context<'_>) -> Vec<Fact> {
    let (record, units) = (&wood.record, context.units());
    let working = Place::new(Topic::Weights, wood.id.clone());
    let fact = |name, text: String, cite, note| {
        let figure = Figure::worked(text, &working, context);
        Fact { name, figure, cite, note }
    };
    let mut facts = Vec::new();
    if let Some(density) = &record.density {
        let note = match density.basis {
            DensityBasis::Measured => None,
            DensityBasis::GenusAverage => {
                Some("an average of the genus or of all hardwoods, not measured on this species")
            }
            DensityBasis::Model => {
                Some("estimated by a model over many studies; runs about a tenth above handbook values")
            }
        };
        let spread = density.deviation.map_or_else(String::new, |spread| format!(" ± {}", rounded(spread, 3)));
        let (basic, cite) = (rounded(density.basic, 3) + &spread, Cite::by(density, context));
        facts.push(fact("Basic density (water = 1)", basic, cite.clone(), note.map(str::to_owned)));
        let dry = |dry| fact("Density at 12 % moisture (water = 1)", rounded(dry, 3), cite, None);
        facts.extend(density.at_12_percent.map(dry));
    }
    if let Some(moisture) = &record.moisture {
        let (own, mark) = (Cite::by(moisture, context), moisture.parts_mark.unwrap_or_default());
        let parts = moisture.parts_source.as_ref().map(|source| Cite::of(source, mark, context));
        let waters = [
            ("Water in the whole green stem, of dry weight", &moisture.green, Some(own.clone()), stem(wood)),
            ("Water in green heartwood", &moisture.heartwood, parts.clone(), None),
            ("Water in green sapwood", &moisture.sapwood, parts, None),
        ];
        let water = |(name, part, cite, note): (_, &Option<Percent>, _, _)| {
            Some(fact(name, part.as_ref()?.show(units), cite?, note))
        };
        facts.extend(waters.into_iter().filter_map(water));
        let span = moisture.span.as_ref().map(|span| range(&span.low.show(units), &span.high.show(units)));
        facts.extend(span.map(|span| fact("Water in whole green stems, least to most", span, own, None)));
    }
    if let Some(bark) = &record.bark {
        facts.push(fact("Bark, of the volume of the wood", bark.share.show(units), Cite::by(bark, context), None));
        let found = context.findings.weight(wood).into_iter().flat_map(|of| &of.bark);
        let at = Length::of_inches(bark::ACROSS);
        for (fit, thick) in bark.fits.iter().zip(found) {
            let of = if fit.of_group { "; line of a group of species" } else { "" };
            let note = format!("at {} across, {}{of}", at.show(units), fit.region);
            let cite = Cite::of(&fit.source, Mark::Derived, context);
            facts.push(fact("Bark thickness", thick.show(units), cite, Some(note)));
        }
    }
    facts.extend(words_of(wood, context));
    facts
}

/// Facts without a number, and those that lead to their source.
fn words_of(wood: &Wood, context: &Context<'_>) -> Vec<Fact> {
    let record = &wood.record;
    let mut facts = Vec::new();
    if let Some(sapwood) = &record.sapwood {
        let figure = Figure::plain(match sapwood.class {
            SapwoodClass::Thin => "thin: a few rings",
            SapwoodClass::Medium => "medium: an inch or two",
            SapwoodClass::Thick => "thick: most of a log-sized stem",
        });
        facts.push(Fact { name: "Sapwood ring", figure, cite: Cite::by(sapwood, context), note: None });
    }
    if let Some(decay) = &record.decay_resistance {
        let (figure, cite) = (Figure::plain(&*decay.class), Cite::by(decay, context));
        let note = Some("heartwood only; sapwood of every species decays".to_owned());
        facts.push(Fact { name: "Decay resistance of the heartwood", figure, cite, note });
    }
    // The dates are those of one northern site, and say nothing where the year is turned.
    if let Some(season) = record.season.as_ref().filter(|_| context.book.here.half == Half::North) {
        let cite = Cite::by(season, context);
        let days = |deviation: f64| format!("± {} days between years, at the source's own site", rounded(deviation, 1));
        let seen = [
            ("Buds burst", Some(season.bud_burst), Some(season.bud_burst_deviation)),
            ("Half of the leaves turned", season.leaf_colour, season.leaf_colour_deviation),
            ("Half of the leaves down", season.leaf_fall, None),
        ];
        facts.extend(seen.into_iter().filter_map(|(name, day, deviation)| {
            let figure = Figure::sourced(day?.show(context.units()), cite.href.clone());
            Some(Fact { name, figure, cite: cite.clone(), note: deviation.map(days) })
        }));
    }
    facts
}

fn weights(wood: &Wood, context: &Context<'_>) -> Vec<(String, Figure, String)> {
    let units = context.units();
    let logs = context.findings.weight(wood).into_iter().flat_map(|of| &of.logs);
    let weight = |log: &LogWeight| match (log.span(false), log.span(true)) {
        (Ok(green), Ok(soaked)) => {
            let green = Figure::worked(about_range(&green, units), &log.green.place, context);
            (log.diameter.show(units), green, about_range(&soaked, units))
        }
        (Err(gap), _) | (_, Err(gap)) => (log.diameter.show(units), Figure::gap(gap.to_string()), String::new()),
    };
    logs.map(weight).collect()
}
