//! How long logs rest after felling, by each source, with dates of this farm where it grows the mushroom.

use serde::Serialize;

use super::cite::Cite;
use super::date;
use super::woods::short_woods;
use crate::book::Mushroom;
use crate::page::Context;
use crate::reckon::findings::{Inoculation, inoculation};
use crate::reckon::rest::School;
use crate::record::said::Rest as Record;

/// One source's rest, and what it means on this farm.
#[derive(Debug, Serialize)]
pub struct Rest {
    /// The school.
    pub school: &'static str,
    /// The rest in figures, where the source gives them.
    pub figure: String,
    /// Its reason.
    pub says: String,
    /// Who says so.
    pub cite: Cite,
    /// When to fell and to inoculate by it here.
    pub here: Vec<String>,
}

/// The rest rows of a mushroom: with dates of this farm where it grows it, else as the record has them.
pub fn all(mushroom: &Mushroom, context: &Context<'_>) -> Vec<Rest> {
    let found: Vec<&Inoculation> =
        context.findings.inoculations().iter().filter(|found| found.mushroom.id == mushroom.id).collect();
    match found.first() {
        Some(first) => (0..first.lines.len()).map(|index| line(&found, index, context)).collect(),
        None => inoculation::rests(mushroom).iter().map(|rest| bare(rest, context)).collect(),
    }
}

fn bare(rest: &Record, context: &Context<'_>) -> Rest {
    Rest {
        school: inoculation::school(rest).map_or("no least rest given", School::words),
        figure: words(rest, context),
        says: rest.says.clone(),
        cite: Cite::by(rest, context),
        here: Vec::new(),
    }
}

fn line(found: &[&Inoculation], index: usize, context: &Context<'_>) -> Rest {
    let line = &found[0].lines[index];
    let here = found.iter().flat_map(|found| {
        let felling = &context.findings.fellings()[found.felling];
        found.lines[index].carried.iter().map(move |carried| {
            let (season, fits) = (context.findings.season, carried.fits);
            let inoculate = date::stretch(carried.inoculation, season, context.units());
            let when = format!("fell {}, inoculate {inoculate}", date::stretch(fits, season, context.units()));
            let when = date::with_basis(when, felling.basis(carried.felling));
            format!("{}: {when}", short_woods(&felling.woods, context))
        })
    });
    let mut rest = bare(&line.rest, context);
    rest.here = here.collect();
    rest
}

/// The figures of a rest row in words.
pub fn words(rest: &Record, context: &Context<'_>) -> String {
    let units = context.units();
    let mut parts = Vec::new();
    if let Some(least) = &rest.least {
        parts.push(format!("at least {}", least.show(units)));
    }
    if let Some(best) = &rest.best {
        parts.push(format!("best {} to {}", best.low.show(units), best.high.show(units)));
    }
    if let Some(most) = &rest.most {
        parts.push(format!("at most {}", most.show(units)));
    }
    parts.join("; ")
}
