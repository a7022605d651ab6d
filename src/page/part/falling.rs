//! The trees that come down this winter: stand by stand, in walking order, on as many sheets as a telephone needs.

use super::{Anchor, and};
use crate::book::Book;
use crate::page::leaf::packed;
use crate::page::{Context, Page};
use crate::quantity::count;
use crate::reckon::Findings;
use crate::reckon::findings::stands::standing;
use crate::reckon::findings::{StandFinding, TreeFinding};
use crate::reckon::walk::walk;

/// The most rows of a sheet, and those that the head and the foot of a stand take.
const ROWS: usize = 48;
const STAND: usize = 4;

/// The trees of a stand that come down, or of a part of it that one sheet holds.
#[derive(Debug)]
pub struct Falling<'a> {
    /// The stand; none for trees that stand in no recorded one.
    pub stand: Option<&'a StandFinding>,
    /// The trees.
    pub trees: Vec<&'a TreeFinding>,
    /// Whether they are in walking order.
    pub is_walked: bool,
    /// Whether the stand begins on this sheet.
    pub is_first: bool,
}

/// The sheets, at least one, of every stand that has tagged trees.
pub fn sheets(findings: &Findings) -> Vec<Vec<Falling<'_>>> {
    let stands = findings.stands().iter().filter(|stand| !stand.trees.is_empty());
    let of_stands = stands.flat_map(|stand| pieces(Some(stand), tagged(Some(stand), findings), findings));
    let homeless = tagged(None, findings);
    let of_none = (!homeless.is_empty()).then(|| pieces(None, homeless, findings)).into_iter().flatten();
    packed(of_stands.chain(of_none).collect(), |falling| falling.trees.len() + STAND, ROWS)
}

/// The parts beyond the first.
pub fn parts(_: &Book, findings: &Findings) -> Vec<usize> {
    (1..sheets(findings).len()).collect()
}

/// The other sheets, each by its stands.
pub fn links(part: usize, page: impl Fn(usize) -> Page, context: &Context<'_>) -> Vec<Anchor> {
    let sheets = sheets(context.findings);
    let link = |(at, sheet): (usize, &Vec<Falling<'_>>)| {
        let stands: Vec<String> = sheet.iter().map(|falling| falling.name().to_owned()).collect();
        let trees: usize = sheet.iter().map(|falling| falling.trees.len()).sum();
        let text = format!("{}: {}", and(&stands), count(trees, "tree", "trees"));
        Anchor::to(context.route.to(&page(at)), text, context)
    };
    sheets.iter().enumerate().filter(|(at, _)| *at != part).map(link).collect()
}

/// The tagged trees of a stand, or those that stand in no recorded one.
fn tagged<'a>(stand: Option<&StandFinding>, findings: &'a Findings) -> Vec<&'a TreeFinding> {
    match stand {
        Some(stand) => stand.trees.iter().map(|index| &findings.trees()[*index]).collect(),
        None => findings.trees().iter().filter(|tree| tree.tree.stand.is_none()).collect(),
    }
}

impl Falling<'_> {
    /// All tagged trees of its stand, those too that stay.
    pub fn tagged<'a>(&self, findings: &'a Findings) -> Vec<&'a TreeFinding> {
        tagged(self.stand, findings)
    }

    /// The name of its stand.
    pub fn name(&self) -> &str {
        self.stand.map_or("no stand", |stand| stand.measured.stand.record.name.as_str())
    }
}

/// The trees of one stand that come down, a sheet's worth in each piece.
fn pieces<'a>(
    stand: Option<&'a StandFinding>,
    mut trees: Vec<&'a TreeFinding>,
    findings: &Findings,
) -> Vec<Falling<'a>> {
    trees.retain(|tree| findings.winter().falls(tree.tree.tag()));
    let (trees, is_walked) = in_walking_order(trees);
    let of = |(at, trees): (usize, &[&'a TreeFinding])| Falling {
        stand,
        trees: trees.to_vec(),
        is_walked,
        is_first: at == 0,
    };
    match trees.as_slice() {
        [] => vec![Falling { stand, trees, is_walked, is_first: true }],
        some => some.chunks(ROWS - STAND).enumerate().map(of).collect(),
    }
}

/// Trees in the order in which one walks to them: the order that is written, else by their places, else by tag.
fn in_walking_order(mut trees: Vec<&TreeFinding>) -> (Vec<&TreeFinding>, bool) {
    if trees.iter().all(|tree| tree.tree.record.order.is_some()) {
        trees.sort_by_key(|tree| tree.tree.record.order);
        return (trees, true);
    }
    let places: Option<Vec<[f64; 2]>> =
        trees.iter().map(|tree| standing(tree).map(|place| [place.east, place.north])).collect();
    match places {
        Some(places) => (walk(&places).into_iter().map(|at| trees[at]).collect(), true),
        None => (trees, false),
    }
}
