//! Which tree is this, by whatever is seen of it: every character of the farm's woods, and which of them show each state.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::page::part::caution::{self, Caution};
use crate::page::part::{Anchor, character};
use crate::page::{Context, Page};
use crate::quantity::count;
use crate::reckon::findings::KeyWood;
use crate::record::character::{Character, Reach, When};

/// Woods that an answer names; of more it says how many.
const NAMED: usize = 3;

/// The page.
#[derive(Debug, Serialize)]
pub struct View {
    groups: Vec<Group>,
    woods: Vec<Left>,
    /// What stands above the list for each number of woods that may be left, from none on.
    counts: Vec<String>,
    untold: Vec<Anchor>,
    /// Conifers to leave, which foliage tells at a glance.
    at_a_glance: Vec<Anchor>,
    keys: [Anchor; 2],
    /// What hurts whoever takes a leaf or a twig.
    cautions: Vec<Caution>,
}

/// The characters that are seen in one way.
#[derive(Debug, Serialize)]
struct Group {
    reach: &'static str,
    /// Whether what is looked at may have fallen from a neighbour.
    may_be_neighbours: bool,
    questions: Vec<Question>,
}

/// A character.
#[derive(Debug, Serialize)]
struct Question {
    id: &'static str,
    asks: String,
    /// The season in which it is seen, where it is not always.
    when: Option<&'static str>,
    /// Woods of which it is not told, by their places: no answer shuts them out.
    unknown: String,
    answers: Vec<Answer>,
}

/// A state of a character.
#[derive(Debug, Serialize)]
struct Answer {
    id: &'static str,
    shows: String,
    /// The woods that show it, by their places.
    places: String,
    /// The woods that show it.
    names: Vec<String>,
    /// How many they are, where they are not named one by one.
    count: Option<String>,
}

/// A wood that may be left.
#[derive(Debug, Serialize)]
struct Left {
    wood: Anchor,
    scientific: String,
    is_refused: bool,
}

/// The view of the ways in.
pub fn view(context: &Context<'_>) -> Option<View> {
    let key = context.findings.tree_keys().first()?;
    let (at_a_glance, mut woods): (Vec<&KeyWood>, Vec<&KeyWood>) =
        key.woods.iter().partition(|of| is_left_for_its_needles(of));
    woods.sort_by_key(|of| (!of.is_refused, of.wood.name().to_lowercase()));
    let mut groups: BTreeMap<Reach, Vec<Question>> = BTreeMap::new();
    for asked in Character::ALL.into_iter().filter(|asked| asked.when() != When::Never && asked.trust() >= 1.0) {
        groups.entry(asked.reach()).or_default().extend(Question::of(asked, &woods, context));
    }
    let groups = groups.into_iter().filter(|(_, questions)| !questions.is_empty());
    Some(View {
        groups: groups
            .map(|(reach, questions)| Group {
                reach: reach.words(),
                may_be_neighbours: reach == Reach::Leaf,
                questions,
            })
            .collect(),
        counts: (0..=woods.len()).map(|left| counted(left, woods.len())).collect(),
        untold: key.untold.iter().map(|wood| Anchor::wood(wood, context)).collect(),
        at_a_glance: at_a_glance.into_iter().map(|of| Left::of(of, context).wood).collect(),
        woods: woods.into_iter().map(|of| Left::of(of, context)).collect(),
        cautions: caution::named(&caution::BY_HAND, context),
        keys: [Page::KeyWinter, Page::KeySummer].map(|page| Anchor::page(&page, context)),
    })
}

impl Question {
    /// A character by which some of the woods can be shut out.
    fn of(asked: Character, woods: &[&KeyWood], context: &Context<'_>) -> Option<Self> {
        let told: Vec<Vec<usize>> = woods
            .iter()
            .map(|of| of.wood.record.characters.told(asked).map_or_else(Vec::new, |told| told.states))
            .collect();
        let showing = |wanted: &dyn Fn(&[usize]) -> bool| -> Vec<usize> {
            told.iter().enumerate().filter(|(_, states)| wanted(states)).map(|(place, _)| place).collect()
        };
        let unknown = showing(&|states| states.is_empty());
        let answer = |(state, (id, _)): (usize, (&'static str, &'static str))| {
            let places = showing(&|states| states.contains(&state));
            let names: Vec<String> = places.iter().map(|place| woods[*place].wood.name().to_owned()).collect();
            (!places.is_empty()).then(|| Answer {
                id,
                shows: character::states(asked, &[state], context),
                count: (names.len() > NAMED).then(|| count(names.len(), "wood", "woods")),
                names,
                places: listed(&places),
            })
        };
        let asks = character::name(asked, context);
        let answers: Vec<Answer> = asked.states().into_iter().enumerate().filter_map(answer).collect();
        let parts = answers.iter().any(|answer| answer.names.len() + unknown.len() < woods.len());
        parts.then(|| Self {
            id: asked.id(),
            when: (asked.when() != When::Always).then(|| asked.when().words()).filter(|when| !asks.ends_with(when)),
            asks,
            unknown: listed(&unknown),
            answers,
        })
    }
}

impl Left {
    fn of(of: &KeyWood, context: &Context<'_>) -> Self {
        let end = context.route.at(&Page::KeyWinter, &character::block(&of.wood));
        Self {
            wood: Anchor::to(end, of.wood.name(), context),
            scientific: of.wood.record.scientific.clone(),
            is_refused: of.is_refused,
        }
    }
}

/// Whether it is a conifer to leave, of which little but the foliage is told, so that no other answer would shut it out.
fn is_left_for_its_needles(of: &KeyWood) -> bool {
    of.is_refused && of.wood.is_conifer()
}

fn counted(left: usize, all: usize) -> String {
    match left {
        0 => "None of our woods: leave it".to_owned(),
        left => format!("{left} of {all} left"),
    }
}

fn listed(places: &[usize]) -> String {
    places.iter().map(usize::to_string).collect::<Vec<_>>().join(" ")
}
