//! What each tagged tree gives, and how that was counted.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use uom::si::f64::MassDensity;

use super::Findings;
use crate::book::{Book, Tree, Wood};
use crate::quantity::{Date, Days, Length, Mass};
use crate::reckon::bolts::{FORK, Piece, Pieces, Sought, THINNER, cut};
use crate::reckon::formula::Place;
use crate::reckon::gain::{Cut, Gain};
use crate::reckon::season::Season;
use crate::reckon::taper::{Coefficients, Stem};
use crate::reckon::{Gap, bolts};
use crate::record::tree::{Condition, Decision, Gone, Tag};
use crate::record::wood::Taper;

/// How the logs of a stem were counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Counted {
    /// By the stem model, from the tree's own height.
    Height,
    /// By the stem model, from the height of its stand.
    StandHeight,
    /// By eye.
    Eye,
}

/// How a tree came down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Down {
    /// The day, where it is known.
    pub day: Option<Date>,
    /// What became of it.
    pub how: Gone,
}

/// What a tagged tree gives.
#[derive(Debug, Clone)]
pub struct TreeFinding {
    /// The tree.
    pub tree: Arc<Tree>,
    /// How its stem was counted, or why it was not.
    pub counted: Result<Counted, Gap>,
    /// The height that was put in.
    pub height: Option<Length>,
    /// The pieces of its stem, where they were reckoned.
    pub pieces: Option<Pieces>,
    /// The logs of a stem 5 % thinner, where they were reckoned.
    pub careful: Option<u32>,
    /// Logs in the stem.
    pub stem_logs: u32,
    /// Logs in the limbs.
    pub limb_logs: u32,
    /// Logs that come out of it by what this farm gets of the reckoned, where that can be told.
    pub told: Option<u32>,
    /// How it came down, where it is down already.
    pub down: Option<Down>,
    // Whether its wood is in doubt, or that of another standing stem of its stump.
    is_unsure: bool,
    // The least, the usual and the most that its wood weighs by its volume.
    densities: Option<[MassDensity; 3]>,
}

impl TreeFinding {
    /// Logs to be had of it: those reckoned, by what this farm gets of them.
    pub fn logs(&self) -> u32 {
        self.told.unwrap_or_else(|| self.reckoned())
    }

    /// Logs reckoned in stem and limbs.
    pub const fn reckoned(&self) -> u32 {
        self.stem_logs + self.limb_logs
    }

    /// Whether the stem model reckoned its logs, so that what it gives can be held to it.
    const fn is_by_model(&self) -> bool {
        matches!(self.counted, Ok(Counted::Height | Counted::StandHeight))
    }

    /// Whether any log of it was counted, in the stem or in the limbs.
    pub const fn is_counted(&self) -> bool {
        self.counted.is_ok() || self.limb_logs > 0
    }

    /// Whether the tree is down.
    pub const fn is_down(&self) -> bool {
        self.down.is_some()
    }

    /// Whether it is dead and still stands.
    pub fn is_snag(&self) -> bool {
        let record = &self.tree.record;
        !self.is_down() && (record.gone == Some(Gone::Died) || record.condition == Condition::Dead)
    }

    /// Whether the tree is marked and stands, alive as far as is told.
    fn is_marked(&self) -> bool {
        let record = &self.tree.record;
        record.decision == Decision::Fell && record.gone != Some(Gone::Died) && !self.is_down()
    }

    /// Whether the tree may come down.
    pub fn may_fall(&self) -> bool {
        self.is_marked() && !self.is_doubtful()
    }

    /// Whether the tree stands and its wood is in doubt.
    pub const fn is_doubtful(&self) -> bool {
        self.is_unsure && !self.is_down()
    }

    /// Whether the tree is marked, and is left all the same until its wood is known.
    pub fn is_left_in_doubt(&self) -> bool {
        self.is_marked() && self.is_doubtful()
    }

    /// Middle diameters of its logs in inches, those of limbs and by eye taken for the farm's middle size.
    pub fn log_diameters(&self, usual: f64) -> Vec<f64> {
        let mut diameters: Vec<f64> = self.fitting().map(|piece| piece.middle.inches()).collect();
        diameters.resize(self.logs() as usize, usual);
        diameters
    }

    /// The pieces of its stem that are logs.
    pub fn fitting(&self) -> impl Iterator<Item = &Piece> {
        self.pieces.iter().flat_map(Pieces::fitting)
    }

    /// The least, the usual and the most that a piece of it weighs green, where that can be told.
    pub fn weights(&self, piece: &Piece) -> Option<[Mass; 3]> {
        self.densities.map(|densities| densities.map(|density| (density * piece.volume).into()))
    }

    /// The least and the most that its heaviest log weighs green, where one can be told.
    pub fn heaviest(&self) -> Option<[Mass; 2]> {
        let weights = self.fitting().filter_map(|piece| self.weights(piece));
        let heaviest = weights.reduce(|one, other| if other[2].base() > one[2].base() { other } else { one });
        heaviest.map(|[least, _, most]| [least, most])
    }

    /// Where its working stands.
    pub fn place(&self) -> Place {
        Place::tree(&self.tree.tag().0)
    }
}

/// The coefficients of a wood's record.
pub const fn coefficients(taper: &Taper) -> Coefficients {
    Coefficients {
        breast: [taper.a4, taper.b4],
        form: [taper.a17, taper.b17],
        lower: taper.p,
        upper: [taper.a, taper.b],
        stump: [taper.stump.outside, taper.stump.inside],
    }
}

/// The logs that the farm seeks.
pub fn sought(book: &Book) -> Sought {
    let log = &book.farm.record.log;
    Sought { length: log.length.clone(), thinnest: log.diameter.low.clone(), thickest: log.diameter.high.clone() }
}

/// What every tagged tree gives, in the order of tags.
pub fn all(findings: &Findings) -> Vec<TreeFinding> {
    let mut trees = findings.reckoned_trees().to_vec();
    if let Some(gain) = findings.gain() {
        let to_come = |tree: &TreeFinding| {
            let marked = tree.tree.record.decision == Decision::Fell && tree.is_by_model();
            marked && winter(tree, findings).is_none_or(|winter| winter >= findings.season.year)
        };
        // Those in doubt are told by themselves, so that the others of their wood are right together.
        let mut of_wood: BTreeMap<(String, bool), Vec<usize>> = BTreeMap::new();
        for (place, tree) in trees.iter().enumerate().filter(|(_, tree)| to_come(tree)) {
            of_wood.entry((tree.tree.wood.id.clone(), tree.is_doubtful())).or_default().push(place);
        }
        for places in of_wood.into_values() {
            let told = gain.share(places.iter().map(|place| trees[*place].reckoned()));
            places.into_iter().zip(told).for_each(|(place, told)| trees[place].told = Some(told));
        }
    }
    trees
}

/// What this farm got of the logs reckoned of trees that came down before this season.
pub fn gain(findings: &Findings) -> Option<Gain> {
    let of = |tree: &TreeFinding| {
        let (winter, got) = (winter(tree, findings)?, tree.tree.record.logs_cut?);
        let is_past = winter < findings.season.year && tree.down.is_some_and(|down| down.how == Gone::Felled);
        (is_past && tree.is_by_model()).then(|| Cut { winter, reckoned: tree.reckoned(), got })
    };
    Gain::of(&findings.reckoned_trees().iter().filter_map(of).collect::<Vec<_>>())
}

/// The winter in which a tree came down, where its day is known.
fn winter(tree: &TreeFinding, findings: &Findings) -> Option<i16> {
    Some(Season::holding(tree.down?.day?, findings.season.south).year)
}

/// What every tagged tree gives by its own measures alone, in the order of tags.
pub fn reckoned(findings: &Findings) -> Vec<TreeFinding> {
    let book = &findings.book;
    let sought = sought(book);
    let named = named(book);
    let of = |tree: &Arc<Tree>| TreeFinding {
        down: down(tree, &named),
        densities: findings.weight(&tree.wood).and_then(|weight| weight.densities().ok()),
        ..one(tree, &sought)
    };
    let mut trees: Vec<TreeFinding> = book.trees.iter().map(of).collect();
    doubt(&mut trees);
    trees
}

/// Spreads the doubt of a standing stem to the others of its stump, which are of one wood.
fn doubt(trees: &mut [TreeFinding]) {
    let stump = |of: &TreeFinding| {
        let stand = of.tree.stand.as_ref().map(|stand| stand.id.clone());
        of.tree.record.clump.clone().map(|clump| (stand, clump))
    };
    let unsure: BTreeSet<_> = trees.iter().filter(|of| of.is_doubtful()).filter_map(stump).collect();
    for of in trees {
        of.is_unsure |= stump(of).is_some_and(|stump| unsure.contains(&stump));
    }
}

/// The trees that a lot or a batch names, which are down, each with the last of its days where they are known.
fn named(book: &Book) -> BTreeMap<&Tag, Option<Date>> {
    let last = |days: Option<Days>| days.map(|days| days.to);
    let batches = book.batches.values().flat_map(|batch| {
        let day = last(batch.felled()).or(Some(batch.record.inoculated));
        batch.record.trees.iter().map(move |tag| (tag, day))
    });
    let lots = book.lots.values().flat_map(|lot| lot.trees.iter().map(|tree| (tree.tag(), last(lot.felled))));
    batches.chain(lots).collect()
}

/// How a tree came down, by its own record or by what is made of it.
fn down(tree: &Tree, named: &BTreeMap<&Tag, Option<Date>>) -> Option<Down> {
    let record = &tree.record;
    let named = named.get(tree.tag());
    let is_down = record.felled.is_some() || record.gone.is_some() || record.logs_cut.is_some() || named.is_some();
    (is_down && record.gone != Some(Gone::Died)).then(|| Down {
        day: record.felled.or_else(|| named.copied().flatten()),
        how: record.gone.unwrap_or(Gone::Felled),
    })
}

fn one(tree: &Arc<Tree>, sought: &Sought) -> TreeFinding {
    let record = &tree.record;
    let blank = |counted| TreeFinding {
        tree: Arc::clone(tree),
        counted,
        height: None,
        pieces: None,
        careful: None,
        stem_logs: 0,
        limb_logs: 0,
        told: None,
        down: None,
        is_unsure: record.doubtful,
        densities: None,
    };
    if matches!(record.condition, Condition::Decayed | Condition::Dead) {
        return blank(Err(Gap::Outside(
            "rotten or dead wood is taken by another fungus already, so no log is counted",
        )));
    }
    let stand = || tree.stand.as_ref().and_then(|stand| stand.record.height.clone());
    let own = record.height.as_ref().map(|height| stem(tree, height));
    let mut found = match (own, record.logs, stand()) {
        (Some(Ok(stem)), ..) => by_model(blank(Ok(Counted::Height)), stem, record.height.clone(), sought),
        (_, Some(logs), _) => TreeFinding { stem_logs: logs, ..blank(Ok(Counted::Eye)) },
        (Some(Err(gap)), None, _) => blank(Err(gap)),
        (None, None, Some(height)) => match stem(tree, &height) {
            Ok(stem) => by_model(blank(Ok(Counted::StandHeight)), stem, Some(height), sought),
            Err(gap) => blank(Err(gap)),
        },
        (None, None, None) => {
            blank(Err(Gap::NotRecorded("the tree's height, its logs by eye or the height of its stand")))
        }
    };
    found.limb_logs = record.limb_logs.unwrap_or(0);
    found
}

fn stem(tree: &Tree, height: &Length) -> Result<Stem, Gap> {
    stem_of(&tree.wood, &tree.record.dbh(), height)
}

fn stem_of(wood: &Wood, dbh: &Length, height: &Length) -> Result<Stem, Gap> {
    Stem::of(dbh, height, wood.record.taper.as_ref().map(coefficients))
}

/// What a stem gives that nobody has tagged.
#[derive(Debug, Clone)]
pub struct Untagged {
    /// Logs of a stem 5 % thinner, and of the stem itself.
    pub logs: [u32; 2],
    /// The most that the heaviest of them weighs green, where that can be told.
    pub heaviest: Option<Mass>,
}

/// What a stem of a wood gives, by its diameter at breast height and its height.
///
/// # Errors
///
/// A [`Gap`] where the stem model does not reach such a stem.
pub fn untagged(findings: &Findings, wood: &Wood, dbh: &Length, height: &Length) -> Result<Untagged, Gap> {
    let (stem, sought) = (stem_of(wood, dbh, height)?, sought(&findings.book));
    let careful = bolts::cut(&stem.thinner(THINNER), &sought, None).logs();
    let pieces = cut(&stem, &sought, None);
    let most = findings.weight(wood).and_then(|weight| weight.densities().ok()).map(|[.., most]| most);
    let weights = pieces.fitting().filter_map(|piece| Some(Mass::from(most? * piece.volume)));
    let heaviest = weights.max_by(|one, other| one.base().total_cmp(&other.base()));
    Ok(Untagged { logs: [careful, pieces.logs()], heaviest })
}

fn by_model(blank: TreeFinding, stem: Stem, height: Option<Length>, sought: &Sought) -> TreeFinding {
    let record = &blank.tree.record;
    let forked = (record.condition == Condition::Forked).then(|| stem.height() * FORK);
    let fork = record.fork.as_ref().map(Length::feet).or(forked);
    let pieces = cut(&stem, sought, fork);
    let careful = bolts::cut(&stem.thinner(THINNER), sought, fork).logs();
    TreeFinding { stem_logs: pieces.logs(), careful: Some(careful), pieces: Some(pieces), height, ..blank }
}
