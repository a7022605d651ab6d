//! The working behind one mushroom's pairings.

use std::fmt::Write;

use serde::Serialize;

use super::formula::{self, Formula};
use crate::{
    book::Mushroom,
    page::{
        Context,
        index::order,
        part::{Anchor, pair::Pair},
    },
    quantity::measure::rounded,
    reckon::{
        findings::Pairing,
        pairing::{Consensus, INHERITED_SHARE},
    },
    record::Kind,
};

/// The working behind one mushroom's pairings.
#[derive(Debug, Serialize)]
pub struct View {
    mushroom: Anchor,
    formulas: Vec<Formula>,
    agreement_source: String,
    pairs: Vec<Worked>,
}

/// One pair with its numbers.
#[derive(Debug, Serialize)]
struct Worked {
    id: String,
    pair: Pair,
    voices: Vec<Voice>,
    median: Option<String>,
    agreement: Option<String>,
    result: String,
}

/// One team's voice.
#[derive(Debug, Serialize)]
struct Voice {
    team: String,
    rating: u8,
    weight: String,
    inherited: bool,
}

/// The view of the working behind one mushroom's pairings.
#[must_use]
pub fn view(mushroom: &Mushroom, context: &Context<'_>) -> View {
    let mut pairs: Vec<&Pairing> =
        context.findings.pairings.iter().filter(|pair| pair.mushroom.id == mushroom.id).collect();
    pairs.sort_by(|a, b| order(a).cmp(&order(b)));
    View {
        mushroom: Anchor::mushroom(mushroom, context),
        formulas: vec![formula::median(), formula::agreement()],
        agreement_source: context.route.record(Kind::Source, "tastle-wierman-2007"),
        pairs: pairs.into_iter().map(|pair| worked(pair, context)).collect(),
    }
}

fn worked(pair: &Pairing, context: &Context<'_>) -> Worked {
    let consensus = pair.consensus.as_ref();
    let direct = pair.is_direct();
    let voices = consensus.iter().flat_map(|found| &found.voices).filter(|_| direct);
    let result = match consensus {
        Some(found) => format!("{} {}", found.rating, pair.word.words()),
        None => format!("no rating: {}", pair.word.words()),
    };
    Worked {
        id: pair.wood.id.clone(),
        pair: Pair::of(pair, context),
        voices: voices
            .map(|voice| Voice {
                team: team_name(&voice.team, context),
                rating: voice.rating,
                weight: rounded(voice.weight, 3),
                inherited: voice.inherited,
            })
            .collect(),
        median: consensus.filter(|_| direct).map(median_words),
        agreement: consensus.filter(|_| direct).and_then(agreement_words),
        result,
    }
}

/// A team by the short names of its sources, or its own word.
fn team_name(team: &str, context: &Context<'_>) -> String {
    match context.book.sources.get(team) {
        Some(source) => source.record.short.clone(),
        None => format!("team “{team}”"),
    }
}

fn median_words(found: &Consensus) -> String {
    let total: f64 = found.voices.iter().map(|voice| voice.weight).sum();
    let mut words = String::new();
    let mut sum = 0.0;
    for rating in 0..=found.rating {
        let weight: f64 = found.voices.iter().filter(|voice| voice.rating == rating).map(|voice| voice.weight).sum();
        if weight > 0.0 {
            sum += weight;
            let _ = write!(words, "up to rating {rating}: {}; ", rounded(sum, 3));
        }
    }
    let held = found.voices.iter().any(|voice| voice.inherited) && found.voices.iter().any(|voice| !voice.inherited);
    let share = rounded(INHERITED_SHARE * 100.0, 0);
    let held =
        if held { format!(" Inherited voices are held to {share} % of the direct ones.") } else { String::new() };
    format!(
        "All the weight is {}, half of it {}; {words}so the rating is {}.{held}",
        rounded(total, 3),
        rounded(total / 2.0, 3),
        found.rating
    )
}

fn agreement_words(found: &Consensus) -> Option<String> {
    let index = found.agreement?;
    let total: f64 = found.voices.iter().map(|voice| voice.weight).sum();
    let mean = found.voices.iter().map(|voice| f64::from(voice.rating) * voice.weight).sum::<f64>() / total;
    let mut terms = String::new();
    for rating in 0..=3u8 {
        let weight: f64 = found.voices.iter().filter(|voice| voice.rating == rating).map(|voice| voice.weight).sum();
        if weight > 0.0 {
            let _ =
                write!(terms, " + {} · log₂(1 − |{rating} − {}| / 3)", rounded(weight / total, 3), rounded(mean, 3));
        }
    }
    Some(format!("μ = {}; Cns = 1{terms} = {}", rounded(mean, 3), rounded(index, 2)))
}
