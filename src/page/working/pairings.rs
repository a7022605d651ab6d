//! The working behind one mushroom's pairings.

use std::fmt::Write;

use serde::Serialize;

use crate::book::Mushroom;
use crate::page::Context;
use crate::page::part::Anchor;
use crate::page::part::pair::{Pair, order};
use crate::quantity::measure::rounded;
use crate::reckon::findings::Pairing;
use crate::reckon::findings::pairing::Reach;
use crate::reckon::pairing;
use crate::reckon::pairing::{Consensus, INHERITED_SHARE};
use crate::record::Kind;

/// The working behind one mushroom's pairings.
#[derive(Debug, Serialize)]
pub struct View {
    mushroom: Anchor,
    agreement_source: String,
    pairs: Vec<Worked>,
    inherited: Vec<Inherited>,
}

/// A wood of which only its genus is spoken of.
#[derive(Debug, Serialize)]
struct Inherited {
    id: String,
    pair: Pair,
}

/// One pair with its numbers.
#[derive(Debug, Serialize)]
struct Worked {
    id: String,
    pair: Pair,
    voices: Vec<Voice>,
    single: bool,
    median: Option<String>,
    agreement: Option<String>,
    result: String,
}

/// Teams whose voices say and weigh the same.
#[derive(Debug, Serialize)]
struct Voice {
    teams: Vec<String>,
    rating: u8,
    weight: String,
    inherited: bool,
}

/// The view of the working behind one mushroom's pairings.
pub fn view(mushroom: &Mushroom, context: &Context<'_>) -> View {
    let mut pairs: Vec<&Pairing> =
        context.findings.pairings().iter().filter(|pair| pair.mushroom.id == mushroom.id).collect();
    pairs.sort_by(|a, b| order(a).cmp(&order(b)));
    let (inherited, spoken): (Vec<&Pairing>, Vec<&Pairing>) =
        pairs.into_iter().partition(|pair| pair.reach == Reach::Genus && !pair.is_direct());
    View {
        mushroom: Anchor::mushroom(mushroom, context),
        agreement_source: context.route.record(Kind::Source, "tastle-wierman-2007"),
        inherited: inherited
            .into_iter()
            .map(|pair| Inherited { id: pair.wood.id.clone(), pair: Pair::of(pair, context) })
            .collect(),
        pairs: spoken.into_iter().map(|pair| one(pair, context)).collect(),
    }
}

fn one(pair: &Pairing, context: &Context<'_>) -> Worked {
    let consensus = pair.consensus();
    let direct = pair.is_direct();
    let single = consensus.is_some_and(|found| found.voices.len() == 1);
    let worked = consensus.filter(|_| direct && !single);
    let voices = worked.iter().flat_map(|found| &found.voices);
    let result = match consensus {
        Some(found) => format!("{} {}", found.rating, pair.word.words()),
        None => format!("no rating: {}", pair.word.words()),
    };
    Worked {
        id: pair.wood.id.clone(),
        pair: Pair::of(pair, context),
        voices: together(voices, context),
        single,
        median: worked.map(median_words),
        agreement: worked.and_then(agreement_words),
        result,
    }
}

/// Voices with the same rating and weight together, in the order in which they first come.
fn together<'a>(voices: impl Iterator<Item = &'a pairing::Voice>, context: &Context<'_>) -> Vec<Voice> {
    let mut together: Vec<Voice> = Vec::new();
    for voice in voices {
        let (team, weight) = (team_name(&voice.team, context), rounded(voice.weight, 3));
        let same = |known: &&mut Voice| {
            known.rating == voice.rating && known.weight == weight && known.inherited == voice.inherited
        };
        if let Some(known) = together.iter_mut().find(same) {
            known.teams.push(team);
        } else {
            together.push(Voice { teams: vec![team], rating: voice.rating, weight, inherited: voice.inherited });
        }
    }
    together
}

/// A team by the short names of its sources, or its own word.
fn team_name(team: &str, context: &Context<'_>) -> String {
    match context.book.sources.get(team) {
        Some(source) => source.record.short.clone(),
        None => format!("team “{team}”"),
    }
}

fn median_words(found: &Consensus) -> String {
    let mut words = String::new();
    let mut sum = 0.0;
    for (rating, weight) in found.weights.spoken().filter(|(rating, _)| *rating <= found.median) {
        sum += weight;
        let _ = write!(words, "up to rating {rating}: {}; ", rounded(sum, 3));
    }
    let held = found.voices.iter().any(|voice| voice.inherited) && found.voices.iter().any(|voice| !voice.inherited);
    let share = rounded(INHERITED_SHARE * 100.0, 0);
    let held =
        if held { format!(" Inherited voices are held to {share} % of the direct ones.") } else { String::new() };
    format!(
        "All the weight is {}, half of it {}; {words}so {}.{held}",
        rounded(found.weights.total, 3),
        rounded(found.weights.total / 2.0, 3),
        match found.rating {
            rating if rating == found.median => format!("the rating is {rating}"),
            rating => format!("the median is {}, held to {rating} by the wood's own graded trials", found.median),
        }
    )
}

fn agreement_words(found: &Consensus) -> Option<String> {
    let index = found.agreement?;
    let mean = rounded(found.weights.mean, 3);
    let part = |weight: f64| rounded(weight / found.weights.total, 3);
    let term = |(rating, weight)| format!(" + {} · log₂(1 − |{rating} − {mean}| / 3)", part(weight));
    let terms: String = found.weights.spoken().map(term).collect();
    Some(format!("μ = {mean}; Cns = 1{terms} = {}", rounded(index, 2)))
}
