//! A pairing in words, with what its sources say.

use std::collections::BTreeSet;
use std::sync::Arc;

use serde::Serialize;

use super::cite::Cite;
use super::rating::Rating;
use super::{Anchor, Figure, and, capital, date, number_word};
use crate::book::{Evidence, Mushroom, Wood};
use crate::page::Context;
use crate::page::figure::tally;
use crate::reckon::Topic;
use crate::reckon::findings::pairing::Reach;
use crate::reckon::findings::{Felling, Inoculation, Kin, Pairing, Role, Row, Word};
use crate::reckon::formula::Place;
use crate::reckon::pairing::{Accord, Voice};
use crate::reckon::rest::Carried;
use crate::record::evidence::{EvidenceKind, Way};

/// A pairing as pages show it.
#[derive(Debug, Clone, Serialize)]
pub struct Pair {
    /// The mushroom.
    pub mushroom: Anchor,
    /// The wood.
    pub wood: Anchor,
    /// The rating.
    pub rating: Rating,
    /// Where its working stands.
    pub working: String,
    /// The letter of the way to which the rating belongs, or the name of the way that stands in.
    pub way: Option<String>,
    /// The ways of growing to which its verdicts belong, where it has any.
    pub ways: Option<String>,
    /// How far sources agree, in words.
    pub agreement: &'static str,
    /// Who said what, counted: "Four rank it first, one lists it, one avoids it."
    pub counts: String,
    /// The voices on four steps, drawn; empty where nobody has one.
    pub tally: String,
    /// Whether all of it was said of a group.
    pub inherited: bool,
    /// The rows that were said of the pair itself.
    pub rows: Vec<SaidRow>,
    /// From which groups more was inherited, each with its working.
    pub groups: Vec<Anchor>,
    /// The votes on those groups, where something was said of the pair itself too.
    pub beside: Vec<SaidRow>,
    /// Kindred woods with a verdict, where nobody has tried this one.
    pub kin: Vec<Kindred>,
    /// When to fell and to inoculate here, where the farm grows the mushroom and has the wood.
    pub when: Vec<Figure>,
}

/// A row of evidence as pages show it.
#[derive(Debug, Clone, Serialize)]
pub struct SaidRow {
    /// Who says so.
    pub cite: Cite,
    /// The source's own word.
    pub says: String,
    /// How it was grown.
    pub grown: &'static str,
    /// What kind of word it is.
    pub kind: &'static str,
    /// The rating by which it votes.
    pub rating: Option<u8>,
    /// Whether that is one step less than the source's, since it was said of a group on both sides.
    pub less: bool,
    /// The order that its trial gives, where it gives one.
    pub order: Option<String>,
    /// The source that it only repeats.
    pub repeats: Option<String>,
    /// What a reader should know about it.
    pub note: Option<String>,
    /// Whether it has a vote.
    pub votes: bool,
    /// Whether this farm says it.
    pub own: bool,
}

impl Pair {
    /// A pairing seen from a page.
    pub fn of(pair: &Pairing, context: &Context<'_>) -> Self {
        let route = &context.route;
        let mushroom = Anchor::mushroom(&pair.mushroom, context);
        let wood = Anchor::wood(&pair.wood, context);
        Self {
            mushroom,
            wood,
            rating: Rating::of(pair.word),
            working: route.pairing(&pair.mushroom.id, &pair.wood.id),
            way: way(pair),
            ways: ways(pair),
            agreement: agreement(pair),
            counts: counts(pair, context),
            tally: tally::svg(&voices(pair, context)),
            inherited: pair.reach == Reach::Genus,
            rows: pair.rows.iter().filter(|row| !row.inherited).map(|row| said(row, context)).collect(),
            groups: groups(pair, context),
            beside: if pair.is_direct() { beside(pair, context) } else { Vec::new() },
            kin: kin(&pair.mushroom, &pair.wood, context),
            when: when(pair, context),
        }
    }
}

/// A wood of the genus of an untried one, with its own verdict.
#[derive(Debug, Clone, Serialize)]
pub struct Kindred {
    /// The wood, leading to its pairing.
    pub wood: Anchor,
    /// Its verdict, and the way to which that belongs.
    pub says: String,
}

/// What nobody has spoken of, with the kin that were tried.
#[derive(Debug, Clone, Serialize)]
pub struct Unspoken {
    /// The mushroom, or the wood.
    pub of: Anchor,
    /// Its kin.
    pub kin: Vec<Kindred>,
}

impl Unspoken {
    /// A pair of which nobody has spoken, where a wood of the genus was tried.
    pub fn of(of: Anchor, mushroom: &Mushroom, wood: &Wood, context: &Context<'_>) -> Option<Self> {
        let spoken = context.findings.pairing(&mushroom.id, &wood.id).is_some();
        let kin = if spoken { Vec::new() } else { kin(mushroom, wood, context) };
        (!kin.is_empty()).then_some(Self { of, kin })
    }
}

/// The voices of a pairing, each by its rating and by what it speaks of.
fn voices(pair: &Pairing, context: &Context<'_>) -> Vec<(u8, tally::Of)> {
    let rows = pair.rows.iter().map(|row| &context.book.evidence[row.evidence]);
    let ours: BTreeSet<&str> =
        rows.filter(|row| row.record.kind == EvidenceKind::OwnLogs).map(Evidence::team).collect();
    let of = |voice: &Voice| match voice {
        voice if ours.contains(voice.team.as_str()) => tally::Of::Ours,
        voice if voice.inherited => tally::Of::Genus,
        _ => tally::Of::Wood,
    };
    pair.consensus().into_iter().flat_map(|found| &found.voices).map(|voice| (voice.rating, of(voice))).collect()
}

/// The kin of a wood on which nobody has tried a mushroom.
fn kin(mushroom: &Mushroom, wood: &Wood, context: &Context<'_>) -> Vec<Kindred> {
    let kindred = |kin: &Kin| Kindred {
        wood: Anchor::to(context.route.pairing(&mushroom.id, &kin.wood.id), kin.wood.name(), context),
        says: format!("{}, {}", kin.word.words(), kin.way.how()),
    };
    context.findings.kin(&mushroom.id, wood).iter().map(kindred).collect()
}

/// A row of evidence seen from a page.
pub fn said(row: &Row, context: &Context<'_>) -> SaidRow {
    let evidence = &context.book.evidence[row.evidence];
    let record = &evidence.record;
    SaidRow {
        cite: Cite::by(record, context),
        says: record.says.clone(),
        grown: record.grown.words(),
        kind: record.kind.words(),
        rating: row.grade,
        less: row.grade.is_some() && record.rating.is_some_and(|rating| row.grade != Some(rating)),
        order: order_of(evidence),
        repeats: evidence.repeats.as_ref().map(|source| source.record.short.clone()),
        note: record.note.clone(),
        votes: row.role == Role::Vote,
        own: record.kind == EvidenceKind::OwnLogs,
    }
}

/// Which wood did better in the trial of a row.
fn order_of(row: &Evidence) -> Option<String> {
    let names = |woods: &[Arc<Wood>]| and(&woods.iter().map(|wood| wood.name().to_owned()).collect::<Vec<_>>());
    let sides = [("above", &row.above), ("below", &row.below)];
    let sides = sides.into_iter().filter(|(_, woods)| !woods.is_empty());
    let said: Vec<String> = sides.map(|(side, woods)| format!("{side} {}", names(woods))).collect();
    (!said.is_empty()).then(|| format!("{} {}", row.wood.name(), and(&said)))
}

/// The letter of the way to which the shown verdict belongs, or the name of the way that stands in.
pub fn way(pair: &Pairing) -> Option<String> {
    let by = pair.by()?;
    Some(pair.stands_in(pair.way).map_or_else(|| by.letter().to_owned(), |by| format!("by {}", by.words())))
}

/// To which ways of growing the verdicts on a pair belong, where they are not that of logs alone.
fn ways(pair: &Pairing) -> Option<String> {
    let by = pair.by();
    let shown = by.map(|by| match pair.stands_in(pair.way) {
        Some(_) => format!("by {}, since nobody grades it by {}", by.words(), pair.way.words()),
        None => format!("by {}", by.words()),
    });
    let others = pair.verdicts.iter().filter(|(way, _)| Some(**way) != by);
    let others = others.map(|(way, found)| format!("by {}: {}", way.words(), Word::of(found.rating).words()));
    let said: Vec<String> = shown.into_iter().chain(others).collect();
    let plain = pair.verdicts.keys().all(|way| *way == Way::Log && pair.way == Way::Log);
    (!plain && !said.is_empty()).then(|| capital(&said.join("; ")) + ".")
}

/// When trees for a pair come down here and its logs are inoculated, by the farm's rest; nothing for what fails.
fn when(pair: &Pairing, context: &Context<'_>) -> Vec<Figure> {
    let findings = context.findings;
    let of_wood = |felling: &Felling| felling.woods.iter().any(|wood| wood.id == pair.wood.id);
    let found = findings.inoculations().iter().filter(|found| {
        found.mushroom.id == pair.mushroom.id
            && pair.word != Word::Fails
            && of_wood(&findings.fellings()[found.felling])
    });
    let words = |(found, carried): (&Inoculation, &Carried)| {
        let [fell, inoculate] =
            [carried.fits, carried.inoculation].map(|part| date::stretch(part, findings.season, context.units()));
        let working = Place::new(Topic::Seasons, format!("inoculate-{}", pair.mushroom.id));
        let basis = found.basis(&findings.fellings()[found.felling], carried);
        let words = date::with_basis(format!("fell {fell}, inoculate {inoculate}"), basis);
        Figure::worked(words, &working, context)
    };
    found.flat_map(|found| found.carried.iter().map(move |carried| (found, carried))).map(words).collect()
}

/// The votes on the groups of a pair.
fn beside(pair: &Pairing, context: &Context<'_>) -> Vec<SaidRow> {
    pair.rows.iter().filter(|row| row.inherited && row.role == Role::Vote).map(|row| said(row, context)).collect()
}

/// The groups from which a pairing inherits, each with the working of what was said there.
fn groups(pair: &Pairing, context: &Context<'_>) -> Vec<Anchor> {
    let mut seen = Vec::new();
    let mut groups = Vec::new();
    for row in pair.rows.iter().filter(|row| row.inherited) {
        let evidence = &context.book.evidence[row.evidence];
        let key = (evidence.mushroom.id.as_str(), evidence.wood.id.as_str());
        if !seen.contains(&key) {
            seen.push(key);
            let text = format!("{} on {}", evidence.mushroom.name(), evidence.wood.name());
            groups.push(Anchor::to(context.route.pairing(key.0, key.1), text, context));
        }
    }
    groups
}

/// How far sources agree, in words.
pub fn agreement(pair: &Pairing) -> &'static str {
    match pair.accord() {
        None if pair.consensus().is_none() => "no rating",
        None => "one source only",
        Some(Accord::All) => "all agree",
        Some(Accord::Nearly) => "nearly agree",
        Some(Accord::Differ) => "sources differ",
        Some(Accord::Opposed) => "sources disagree",
    }
}

/// Who said what, counted by teams: of the wood itself, and of its genus.
pub fn counts(pair: &Pairing, context: &Context<'_>) -> String {
    let voices: Vec<&Voice> = pair.consensus().into_iter().flat_map(|found| &found.voices).collect();
    let groups = pair.of_groups(context.book);
    let own = rated(voices.iter().copied().filter(|voice| !voice.inherited));
    let genus = rated(groups.iter());
    let others = [(Role::Order, ORDER), (Role::Mention, ["lists it", "list it"]), (Role::Apart, APART)];
    let others = others.map(|(role, words)| counted(teams_of(pair, role, &voices, context), words));
    let others: Vec<String> = others.into_iter().flatten().collect();
    let said = match (own.is_empty(), genus.is_empty()) {
        (false, false) => {
            let own: Vec<String> = own.into_iter().chain(others).collect();
            return format!("Of this wood: {}. Of its genus: {}.", and(&own), and(&genus));
        }
        (false, true) => own,
        (true, _) => genus,
    };
    capital(&and(&said.into_iter().chain(others).collect::<Vec<_>>())) + "."
}

const ORDER: [&str; 2] = ["compares it without a grade", "compare it without a grade"];
const APART: [&str; 2] = ["reports it from the wild or on sawdust only", "report it from the wild or on sawdust only"];

/// How many voices give each rating, the best first.
fn rated<'a>(voices: impl Iterator<Item = &'a Voice>) -> Vec<String> {
    let ratings: Vec<u8> = voices.map(|voice| voice.rating).collect();
    let words = [
        (3, ["puts it at the top", "put it at the top"]),
        (2, ["says it does well", "say it does well"]),
        (1, ["says it gets by", "say it gets by"]),
        (0, ["avoids it", "avoid it"]),
    ];
    let number = |rating: u8| ratings.iter().filter(|given| **given == rating).count();
    words.into_iter().filter_map(|(rating, words)| counted(number(rating), words)).collect()
}

/// A number and what so many do; nothing for none.
fn counted(number: usize, [one, many]: [&str; 2]) -> Option<String> {
    (number > 0).then(|| format!("{} {}", number_word(number), if number == 1 { one } else { many }))
}

/// How many teams without a voice have rows of a role: on the pair itself, or else on its groups.
fn teams_of(pair: &Pairing, role: Role, voices: &[&Voice], context: &Context<'_>) -> usize {
    let of_pair = pair.is_direct();
    let rows = pair
        .rows
        .iter()
        .filter(|row| row.role == role && row.inherited != of_pair)
        .map(|row| context.book.evidence[row.evidence].team());
    let silent = rows.filter(|team| !voices.iter().any(|voice| voice.team == *team));
    silent.collect::<BTreeSet<_>>().len()
}

/// Best rating first, direct before inherited, more sources before fewer.
pub fn order(pair: &Pairing) -> (Word, bool, std::cmp::Reverse<usize>, &str) {
    (pair.word, pair.reach == Reach::Genus, std::cmp::Reverse(pair.sources), pair.wood.name())
}
