//! Which tree is this? The key of the farm's woods, bare and in leaf.

use std::collections::BTreeSet;
use std::sync::Arc;

use serde::Serialize;

use crate::book::{Mushroom, Wood};
use crate::page::part::alike::{self, Alike};
use crate::page::part::caution::{self, Caution};
use crate::page::part::cite::Cite;
use crate::page::part::rating::Rating;
use crate::page::part::rule::{self, Rule};
use crate::page::part::{Anchor, Figure, and, character, doubt};
use crate::page::{Context, Page};
use crate::quantity::measure::rounded;
use crate::reckon::Topic;
use crate::reckon::findings::{KeyWood, TreeKey};
use crate::reckon::formula::Place;
use crate::reckon::tree_key::{Couplet, Goal, Lead};
use crate::record::character::{Character, Reach, When};
use crate::record::tree::Tag;

/// Mushrooms of this winter, or else of the farm, that an end names.
const GROWN: usize = 3;

/// Trees in doubt that an end names one by one.
const NAMED: usize = 3;

/// States that a reader takes in at a glance.
const LONG: usize = 4;

/// The page.
#[derive(Debug, Serialize)]
pub struct View {
    when: &'static str,
    is_bare: bool,
    other: Anchor,
    ways: Anchor,
    /// What hurts whoever takes a leaf or a twig.
    cautions: Vec<Caution>,
    /// The farm's trees in doubt, each with its stand.
    doubt: Vec<Anchor>,
    more_doubt: Option<String>,
    couplets: Vec<Question>,
    ends: Vec<End>,
    pairs: Vec<Alike>,
    untold: Vec<Anchor>,
    /// What the key is not made for.
    kinds: usize,
    expected: Figure,
    bound: Figure,
    is_exact: bool,
    safety: String,
}

/// A couplet.
#[derive(Debug, Serialize)]
struct Question {
    number: usize,
    from: Vec<usize>,
    asks: String,
    reach: &'static str,
    /// Whether what is looked at may have fallen from a neighbour.
    may_be_neighbours: bool,
    leads: Vec<Answer>,
    /// States of woods that earlier answers have shut out.
    earlier: Option<String>,
    /// States that no wood of the key shows, so that the tree is none of them.
    none: Option<String>,
    /// Whether it takes a twig or a leaf, which may be out of reach.
    may_be_unseen: bool,
    /// What is left where it cannot be seen, where that is few.
    unseen: Option<String>,
}

/// A lead.
#[derive(Debug, Serialize)]
struct Answer {
    letter: &'static str,
    shows: String,
    /// Whether it names more states than a reader takes in at a glance.
    is_long: bool,
    goto: Option<usize>,
    ends: Vec<Anchor>,
    is_refused: bool,
}

/// What stands at the end of the key about a wood.
#[derive(Debug, Serialize)]
struct End {
    id: String,
    wood: Anchor,
    scientific: String,
    trees: usize,
    doubt: Option<String>,
    refused: Vec<(String, Option<Cite>)>,
    /// A character that the way here did not ask.
    check: Option<(String, String)>,
    grows: Vec<(Anchor, Rating)>,
    alike: Vec<Alike>,
    hurts: Vec<&'static str>,
    rules: Vec<Rule>,
}

/// The key of bare trees.
pub fn winter(context: &Context<'_>) -> Option<View> {
    view(When::Winter, &Page::KeySummer, context)
}

/// The key of trees in leaf.
pub fn summer(context: &Context<'_>) -> Option<View> {
    view(When::Summer, &Page::KeyWinter, context)
}

fn view(when: When, other: &Page, context: &Context<'_>) -> Option<View> {
    let key = context.findings.tree_keys().iter().find(|key| key.when == when)?;
    let mut ends: Vec<End> = key.woods.iter().enumerate().map(|(at, of)| End::of(at, of, key, context)).collect();
    ends.sort_by_key(|end| (end.refused.is_empty(), end.wood.text.to_lowercase()));
    let couplets = key.key.couplets.iter().enumerate();
    let place = Place::new(Topic::TreeKey, when.id());
    let worked = |questions: f64| Figure::worked(rounded(questions, 1), &place, context);
    let (doubt, more_doubt) = doubt::links(context);
    Some(View {
        when: when.words(),
        is_bare: when == When::Winter,
        other: Anchor::page(other, context),
        ways: Anchor::page(&Page::KeyWays, context),
        cautions: caution::named(&caution::BY_HAND, context),
        doubt,
        more_doubt,
        couplets: couplets.map(|(at, couplet)| Question::of(at, couplet, key, context)).collect(),
        ends,
        pairs: pairs(key, context),
        untold: key.untold.iter().map(|wood| Anchor::wood(wood, context)).collect(),
        kinds: key.woods.len(),
        expected: worked(key.expected),
        bound: worked(key.bound),
        is_exact: key.is_exact,
        safety: context.route.to(&Page::Safety),
    })
}

impl Question {
    fn of(at: usize, couplet: &Couplet, key: &TreeKey, context: &Context<'_>) -> Self {
        let asked = key.questions[couplet.question];
        let named: BTreeSet<usize> = couplet.leads.iter().flat_map(|lead| lead.states.iter().copied()).collect();
        let is_shown = |state: &usize| {
            key.woods
                .iter()
                .any(|of| of.wood.record.characters.told(asked).is_some_and(|told| told.states.contains(state)))
        };
        let others = (0..asked.states().len()).filter(|state| !named.contains(state));
        let (earlier, none): (Vec<usize>, Vec<usize>) = others.partition(is_shown);
        let words = |states: &[usize]| (!states.is_empty()).then(|| character::states(asked, states, context));
        let left: Vec<String> = couplet.taxa.iter().map(|at| key.woods[*at].wood.name().to_owned()).collect();
        let answer = |(letter, lead): (_, &Lead)| Answer::of(letter, lead, asked, key, context);
        let is_twig = matches!(asked.reach(), Reach::Twig | Reach::Leaf);
        Self {
            number: at + 1,
            from: couplet.from.iter().map(|from| from + 1).collect(),
            asks: character::name(asked, context),
            reach: asked.reach().words(),
            may_be_neighbours: key.when == When::Winter && asked.reach() == Reach::Leaf,
            leads: ["a", "b"].into_iter().zip(&couplet.leads).map(answer).collect(),
            earlier: words(&earlier),
            none: words(&none).filter(|_| asked != Character::Habit),
            may_be_unseen: is_twig,
            unseen: (is_twig && left.len() <= 4).then(|| and(&left)),
        }
    }
}

impl Answer {
    fn of(letter: &'static str, lead: &Lead, asked: Character, key: &TreeKey, context: &Context<'_>) -> Self {
        let (goto, ends) = match &lead.goal {
            Goal::Couplet(at) => (Some(at + 1), &[][..]),
            Goal::End(taxa) => (None, taxa.as_slice()),
        };
        let end = |at: &usize| {
            let wood = &key.woods[*at].wood;
            Anchor::here(&character::block(wood), wood.name().to_owned())
        };
        Self {
            letter,
            shows: character::states(asked, &lead.states, context),
            is_long: lead.states.len() > LONG,
            goto,
            ends: ends.iter().map(end).collect(),
            is_refused: !ends.is_empty() && ends.iter().all(|at| key.woods[*at].is_refused),
        }
    }
}

impl End {
    fn of(at: usize, of: &KeyWood, key: &TreeKey, context: &Context<'_>) -> Self {
        let wood = &of.wood;
        Self {
            id: character::block(wood),
            wood: Anchor::wood(wood, context),
            scientific: wood.record.scientific.clone(),
            trees: of.trees,
            doubt: in_doubt(&of.doubtful),
            refused: character::refused(wood, context),
            check: character::check(key, at, context),
            grows: if of.is_refused { Vec::new() } else { grows(wood, context) },
            alike: alike::in_season(wood, key.when, context),
            hurts: wood.hurts(),
            rules: rule::of_wood(wood, context),
        }
    }
}

/// Trees in doubt by their tags, or by their number where they are many.
fn in_doubt(tags: &[Tag]) -> Option<String> {
    let named: Vec<String> = tags.iter().map(Tag::to_string).collect();
    match named.len() {
        0 => None,
        many if many > NAMED => Some(format!("{many} in doubt")),
        _ => Some(format!("{} in doubt", and(&named))),
    }
}

/// How well this winter's mushrooms, or else those of the farm, grow on a wood.
fn grows(wood: &Wood, context: &Context<'_>) -> Vec<(Anchor, Rating)> {
    let findings = context.findings;
    let wished = findings.winter().wishes.iter().map(|wish| &wish.strain.mushroom);
    let mut mushrooms = Vec::new();
    for mushroom in wished.chain(findings.mushrooms()) {
        if !mushrooms.iter().any(|other: &&Arc<Mushroom>| other.id == mushroom.id) {
            mushrooms.push(mushroom);
        }
    }
    let rated = |mushroom: &&Arc<Mushroom>| {
        (Anchor::mushroom(mushroom, context), Rating::of(findings.word(&mushroom.id, &wood.id)))
    };
    mushrooms.iter().take(GROWN).map(rated).collect()
}

/// Woods of the key with those that are taken for them, each pair once.
fn pairs(key: &TreeKey, context: &Context<'_>) -> Vec<Alike> {
    let mut seen = BTreeSet::new();
    let mut pairs = Vec::new();
    for of in &key.woods {
        for pair in alike::in_season(&of.wood, key.when, context) {
            let (one, other) = (of.wood.id.clone().min(pair.id.clone()), of.wood.id.clone().max(pair.id.clone()));
            if seen.insert((one, other)) {
                pairs.push(pair);
            }
        }
    }
    pairs.sort_by(|a, b| a.pair.text.cmp(&b.pair.text));
    pairs
}
