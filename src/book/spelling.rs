//! The handbook is written in British spelling; the edition in US units is respelt word by word.

use crate::quantity::SeasonEnd;
use crate::read::node::Tree;
use crate::read::{Entry, Node};
use crate::record::Kind;

/// British stems and what they are in American spelling; an ending may follow a stem.
const STEMS: [(&str, &str); 37] = [
    ("analyse", "analyze"),
    ("behaviour", "behavior"),
    ("burnt", "burned"),
    ("centimetre", "centimeter"),
    ("centre", "center"),
    ("colonis", "coloniz"),
    ("colour", "color"),
    ("defence", "defense"),
    ("diarrhoea", "diarrhea"),
    ("discolour", "discolor"),
    ("favour", "favor"),
    ("fibre", "fiber"),
    ("flavour", "flavor"),
    ("grey", "gray"),
    ("judgement", "judgment"),
    ("kilometre", "kilometer"),
    ("labelled", "labeled"),
    ("labelling", "labeling"),
    ("labour", "labor"),
    ("learnt", "learned"),
    ("licence", "license"),
    ("litre", "liter"),
    ("metre", "meter"),
    ("millimetre", "millimeter"),
    ("modelled", "modeled"),
    ("modelling", "modeling"),
    ("mould", "mold"),
    ("neighbour", "neighbor"),
    ("odour", "odor"),
    ("offence", "offense"),
    ("practise", "practice"),
    ("programme", "program"),
    ("recognis", "recogniz"),
    ("sterilis", "steriliz"),
    ("sulphur", "sulfur"),
    ("undiscolour", "undiscolor"),
    ("vigour", "vigor"),
];

/// Words that Americans write as one.
const ONE_WORD: [(&str, &str); 5] = [
    ("per cent", "percent"),
    ("orth-east", "ortheast"),
    ("orth-west", "orthwest"),
    ("outh-east", "outheast"),
    ("outh-west", "outhwest"),
];

/// The keys of Latin names, which nobody respells.
const LATIN: [&str; 2] = ["scientific", "formerly"];

/// Respells what the handbook says in its own words; what a source is called and says stays, and what people type, in either way.
pub(super) fn respell_all(handbook: &mut [Entry]) {
    let ours = |entry: &&mut Entry| !matches!(entry.kind, Kind::Source | Kind::Signpost);
    for entry in handbook.iter_mut().filter(ours) {
        match (&mut entry.node.value, entry.kind) {
            (Tree::Map(keys), Kind::Evidence) => {
                keys.iter_mut().filter(|(key, _)| key.text == "note").for_each(|(_, node)| respell(node));
            }
            _ => respell(&mut entry.node),
        }
    }
}

/// The keys under which a single word is a name, not an id or a word of a list.
const NAMES: [&str; 6] = ["names", "name", "term", "hazard", "protects", "tools"];

fn respell(node: &mut Node) {
    respell_texts(node, false);
}

fn respell_texts(node: &mut Node, named: bool) {
    match &mut node.value {
        Tree::Text(text) if named || is_prose(text) => *text = american(text),
        Tree::List(items) => {
            for item in items {
                respell_texts(item, named);
            }
        }
        Tree::Map(keys) => {
            for (key, node) in keys.iter_mut().filter(|(key, _)| !LATIN.contains(&key.text.as_str())) {
                respell_texts(node, NAMES.contains(&key.text.as_str()));
            }
        }
        _ => {}
    }
}

/// Whether a text is more than an id, the word of a list or the end of a season window.
fn is_prose(text: &str) -> bool {
    text.contains(' ') && SeasonEnd::read(text).is_err()
}

/// A text in American spelling, but for what its links lead to.
///
/// ```
/// use hostwood::book::spelling::american;
/// assert_eq!(american("Grey [mould](trouble:green-mould)"), "Gray [mold](trouble:green-mould)");
/// assert_eq!(american("30 per cent of Laetiporus sulphureus"), "30 percent of Laetiporus sulphureus");
/// ```
pub fn american(text: &str) -> String {
    let mut pieces = text.split("](");
    let first = pieces.next().map(respelt).unwrap_or_default();
    pieces.fold(first, |before, piece| match piece.split_once(')') {
        Some((target, after)) => format!("{before}]({target}){}", respelt(after)),
        None => format!("{before}]({}", respelt(piece)),
    })
}

fn respelt(text: &str) -> String {
    let words: String = text.split_inclusive(|c: char| !c.is_alphabetic()).map(word).collect();
    ONE_WORD.iter().fold(words, |words, (british, american)| words.replace(british, american))
}

/// A word with what parts it from the next.
fn word(piece: &str) -> String {
    let small = piece.to_lowercase();
    let stem = STEMS.iter().find_map(|(british, american)| Some((*american, small.strip_prefix(british)?.len())));
    let Some((american, ending)) = stem.filter(|_| !small.ends_with("eus")) else { return piece.to_owned() };
    let ending = &piece[piece.len() - ending..];
    // A stem begins with the same letter in both spellings, so a capital stays.
    let (letter, rest) = (&piece[..1], &american[1..]);
    format!("{letter}{rest}{ending}")
}
