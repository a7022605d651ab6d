//! All dated work of the season, in the order of its dates: what stands in the calendar.

use std::sync::Arc;

use strum::{EnumDiscriminants, IntoStaticStr};

use super::Findings;
use super::batches::{BatchFinding, Stage};
use super::lying::{Fill, Lying};
use super::rota::RotaTurn;
use super::season::taken;
use crate::book::{Batch, Book, Caution, Mushroom, Strain, Subject, Window, Wood, Writer};
use crate::quantity::{Date, Duration, Range};
use crate::reckon::season::Basis;
use crate::record::caution::Task;
use crate::record::plan::Item;
use crate::record::window::WindowKind;

/// One piece of dated work.
#[derive(Debug, Clone)]
pub struct Work {
    /// A name that stays the same from edition to edition, so that a calendar can update what it holds.
    pub uid: String,
    /// What is to be done.
    pub what: What,
    /// Its first day.
    pub from: Date,
    /// Its last day.
    pub to: Date,
    /// What its days rest on.
    pub basis: Basis,
    /// The cautions that lead the work, in their turn; three at most.
    pub cautions: Vec<Arc<Caution>>,
}

impl Work {
    /// What kind of work it is.
    pub fn kind(&self) -> WorkKind {
        (&self.what).into()
    }
}

/// What is to be done.
#[derive(Debug, Clone, EnumDiscriminants)]
#[strum_discriminants(
    name(WorkKind),
    doc = "A kind of dated work.",
    derive(PartialOrd, Ord, IntoStaticStr),
    strum(serialize_all = "kebab-case")
)]
pub enum What {
    /// Trees may come down.
    Fell {
        /// The woods that share the days.
        woods: Vec<Arc<Wood>>,
        /// All the days on which they may come down.
        whole: (Date, Date),
        /// Whether the days of the work are those alone after which logs rest as long as they should.
        rested: bool,
    },
    /// Trees must not be cut.
    NoCut(Arc<Window>),
    /// An order has to go out.
    Order {
        /// What is ordered.
        item: Item,
        /// The strain of spawn.
        strain: Option<Arc<Strain>>,
        /// When inoculation begins.
        wanted: Option<Date>,
    },
    /// A bag that was opened has to be used up.
    UseUp {
        /// What is in it.
        item: Item,
        /// The strain of spawn.
        strain: Option<Arc<Strain>>,
        /// The number that its maker gave it.
        lot: Option<String>,
        /// The day on which it was opened.
        opened: Date,
    },
    /// Logs are inoculated.
    Inoculate {
        /// The mushrooms that share the days.
        mushrooms: Vec<Arc<Mushroom>>,
        /// The woods of the logs.
        woods: Vec<Arc<Wood>>,
        /// Whether other woods or mushrooms have other days.
        others: bool,
        /// How long the logs rest.
        rest: Range<Duration>,
        /// The last day on which their trees come down.
        down: Date,
    },
    /// Logs that were felled rest.
    Rest(Lying),
    /// They have rested as long as they should.
    Rested(Lying),
    /// They are filled.
    Fill(Lying, Fill),
    /// A batch may give its first mushrooms.
    FirstFruit {
        /// The batch.
        batch: Arc<Batch>,
        /// Logs of it that are left.
        logs: u32,
    },
    /// Logs go into the tank.
    Soak(Arc<Strain>, RotaTurn),
    /// A season of the farm's own.
    Other(Arc<Window>),
}

impl WorkKind {
    /// The kind as tables write it.
    pub fn word(self) -> &'static str {
        self.into()
    }

    /// The task that it is.
    const fn task(self) -> Option<Task> {
        match self {
            Self::Fell => Some(Task::Felling),
            Self::Inoculate | Self::Fill => Some(Task::Inoculation),
            Self::FirstFruit => Some(Task::Harvest),
            Self::Soak => Some(Task::Soaking),
            Self::NoCut | Self::Order | Self::UseUp | Self::Rest | Self::Rested | Self::Other => None,
        }
    }
}

/// A piece of work before its cautions are known: its name within the season, its days and what they rest on, and what is
/// to be done.
type Draft = (String, (Date, Date), Basis, What);

/// All dated work of the season.
pub fn all(findings: &Findings) -> Vec<Work> {
    let book = &findings.book;
    let winter = findings.winter();
    let mut drafts = if winter.needs_trees() { fellings(findings) } else { Vec::new() };
    drafts.extend(no_cuts(findings));
    drafts.extend(orders(findings));
    drafts.extend(opened(findings));
    drafts.extend(if winter.is_done() { Vec::new() } else { inoculations(findings) });
    drafts.extend(lots(findings));
    drafts.extend(first_fruits(findings));
    drafts.extend(soaks(findings));
    drafts.extend(own_seasons(book, findings));
    let work = |(name, (from, to), basis, what): Draft| Work {
        uid: format!("{name}-{}", findings.season.year),
        cautions: cautions(findings, &what),
        what,
        from,
        to,
        basis,
    };
    let mut work: Vec<Work> = drafts.into_iter().map(work).collect();
    work.sort_by(|a, b| (a.from, a.kind(), &a.uid).cmp(&(b.from, b.kind(), &b.uid)));
    work
}

/// The cautions that lead a piece of work.
fn cautions(findings: &Findings, what: &What) -> Vec<Arc<Caution>> {
    let Some(task) = WorkKind::from(what).task() else { return Vec::new() };
    findings.book.cautions_at(task, &subject(what, findings)).leads.into_iter().cloned().collect()
}

/// What a piece of work is done on.
fn subject<'a>(what: &'a What, findings: &Findings) -> Subject<'a> {
    fn all<T>(found: &[Arc<T>]) -> Vec<&T> {
        found.iter().map(AsRef::as_ref).collect()
    }
    match what {
        What::Fell { woods, .. } => Subject { woods: all(woods), ..Subject::default() },
        What::Inoculate { mushrooms, woods, .. } => {
            Subject { woods: all(woods), mushrooms: all(mushrooms), indoors: false }
        }
        What::FirstFruit { batch, .. } => Subject {
            mushrooms: vec![&batch.strain.mushroom],
            indoors: findings.batch(&batch.id).is_some_and(BatchFinding::is_indoors),
            ..Subject::default()
        },
        What::Soak(strain, _) => Subject { mushrooms: vec![&strain.mushroom], ..Subject::default() },
        What::Fill(lying, fill) => {
            Subject { woods: vec![&lying.lot.wood], mushrooms: all(&fill.mushrooms), indoors: false }
        }
        What::NoCut(_) | What::Order { .. } | What::UseUp { .. } | What::Rest(_) | What::Rested(_) | What::Other(_) => {
            Subject::default()
        }
    }
}

fn fellings(findings: &Findings) -> Vec<Draft> {
    let mut all = Vec::new();
    // A wood that no mushroom of the farm can take in these days waits, so its felling is no work of the season.
    let waits = |index: usize| {
        let mut of_felling = findings.inoculations().iter().filter(|found| found.felling == index).peekable();
        of_felling.peek().is_some() && of_felling.all(|found| found.carried.is_empty())
    };
    for (index, felling) in findings.fellings().iter().enumerate().filter(|(index, _)| !waits(*index)) {
        for (part, interval) in (1..).zip(&felling.intervals) {
            let whole = findings.season.dates(*interval);
            let fits = findings.well_rested(index, *interval);
            let what = What::Fell { woods: felling.woods.clone(), whole, rested: fits.is_some() };
            let name = format!("fell-{}-{part}", felling.id());
            all.push((name, fits.unwrap_or(whole), felling.basis(*interval), what));
        }
    }
    all
}

fn no_cuts(findings: &Findings) -> impl Iterator<Item = Draft> {
    taken(findings.fellings()).into_iter().map(|(window, told)| {
        let days = findings.season.dates(told.interval());
        (format!("no-cut-{}", window.id), days, told.basis(), What::NoCut(Arc::clone(window)))
    })
}

fn orders(findings: &Findings) -> impl Iterator<Item = Draft> {
    findings.purchases().iter().filter_map(|purchase| {
        let day = purchase.order_by?;
        let wanted = purchase.window.map(|(from, _)| from);
        let what = What::Order { item: purchase.item, strain: purchase.strain.clone(), wanted };
        let basis = wanted.map_or(Basis::Dated, |day| basis_of_opening(day, findings));
        Some((format!("order-{}", purchase.id()), (day, day), basis, what))
    })
}

/// The last days of the bags that were opened and still hold something.
fn opened(findings: &Findings) -> impl Iterator<Item = Draft> {
    findings.bags().iter().filter(|bag| bag.is_in_hand()).filter_map(|bag| {
        let (day, opened) = (bag.use_up().filter(|day| *day >= findings.axis())?, bag.told.opened?);
        let strain = bag.strain.as_ref().map_or("", |strain| strain.id.as_str());
        let name = format!("use-up-{}-{strain}-{}", bag.item.id(), opened.written());
        let what = What::UseUp { item: bag.item, strain: bag.strain.clone(), lot: bag.lot.clone(), opened };
        Some((name, (day, day), Basis::Dated, what))
    })
}

/// What a day rests on that opens an inoculation.
fn basis_of_opening(day: Date, findings: &Findings) -> Basis {
    let inoculations = findings.inoculations().iter();
    let opening = inoculations.flat_map(|found| found.carried.iter().map(move |carried| (found, carried)));
    let on_the_day = opening.filter(|(_, carried)| findings.season.dates(carried.inoculation).0 == day);
    let bases = on_the_day.map(|(found, carried)| found.basis(&findings.fellings()[found.felling], carried));
    bases.min().unwrap_or(Basis::Dated)
}

fn inoculations(findings: &Findings) -> Vec<Draft> {
    let mut all = Vec::new();
    let groups = findings.groups();
    for group in &groups {
        let felling = &findings.fellings()[group.first.felling];
        for (part, carried) in (1..).zip(&group.first.carried) {
            let what = What::Inoculate {
                mushrooms: group.mushrooms.clone(),
                woods: felling.woods.clone(),
                others: groups.len() > 1,
                rest: group.first.rest.clone(),
                down: findings.season.dates(carried.fits).1,
            };
            let name = format!("inoculate-{}-{}-{part}", group.first.mushroom.id, felling.id());
            let basis = group.first.basis(felling, carried);
            all.push((name, findings.season.dates(carried.inoculation), basis, what));
        }
    }
    all
}

/// The days of lots that lie, as far as they lie in this season's year.
fn lots(findings: &Findings) -> impl Iterator<Item = Draft> {
    let begins = findings.axis();
    let of_lot = |lying: &Lying| -> Vec<Draft> {
        let (name, (from, _)) = (&lying.lot.id, lying.rested);
        let rest = (lying.felled.from, from.plus(-1).max(lying.felled.to));
        let fill = |fill: &Fill| {
            let mushroom = fill.mushrooms.first().map_or("", |mushroom| mushroom.id.as_str());
            (format!("fill-lot-{name}-{mushroom}"), fill.days, fill.basis, What::Fill(lying.clone(), fill.clone()))
        };
        let rested = !lying.fills.iter().any(|fill| fill.days == lying.rested);
        let rested =
            rested.then(|| (format!("rested-lot-{name}"), lying.rested, Basis::Dated, What::Rested(lying.clone())));
        let rest = (format!("rest-lot-{name}"), rest, Basis::Dated, What::Rest(lying.clone()));
        [rest].into_iter().chain(rested).chain(lying.fills.iter().map(fill)).collect()
    };
    findings.lying().iter().flat_map(of_lot).filter(move |(_, (_, to), ..)| *to >= begins)
}

/// Batches that may give their first mushrooms in this season's growing year.
fn first_fruits(findings: &Findings) -> impl Iterator<Item = Draft> {
    let ends = findings.season.growing_year_ends(findings.season.growing_year());
    findings.batches().iter().filter_map(move |found| {
        let fresh = matches!(found.stage, Stage::MayFruit | Stage::Cropping(1));
        let untouched = found.years.iter().all(|year| year.picked.is_none());
        let [from, _] = found.first_span().filter(|_| fresh && untouched)?;
        let from = from.max(findings.axis());
        let day = if found.is_indoors() { from } else { suitable_from(findings, &found.batch.strain.id, from) };
        let what = What::FirstFruit { batch: Arc::clone(&found.batch), logs: found.left() };
        (day <= ends).then(|| (format!("first-fruit-{}", found.batch.id), (day, day), Basis::Dated, what))
    })
}

/// The first day on or after another that lies in the seasons of a strain here, or else whose air suits it; that day itself
/// where nothing is known of it.
fn suitable_from(findings: &Findings, strain: &str, from: Date) -> Date {
    let found = findings.fruiting().iter().find(|found| found.id() == strain);
    let days = found.map(|found| found.season.as_ref().unwrap_or(&found.best));
    let suits = |day: &Date| days.is_some_and(|days| days.contains(day.day_of_year().number()));
    (0..365).map(|days| from.plus(days)).find(suits).unwrap_or(from)
}

fn soaks(findings: &Findings) -> impl Iterator<Item = Draft> {
    findings.rotas().iter().flat_map(|rota| {
        rota.turns.iter().map(|turn| {
            let day = if turn.day > 1 { format!("-day-{}", turn.day) } else { String::new() };
            let name = format!("soak-{}-week-{:02}{day}", rota.id(), turn.week);
            (name, (turn.date, turn.date), Basis::Dated, What::Soak(Arc::clone(&rota.strain), turn.clone()))
        })
    })
}

/// Seasons that the farm has written and that no other work shows.
fn own_seasons(book: &Book, findings: &Findings) -> impl Iterator<Item = Draft> {
    findings.windows().iter().filter_map(|found| {
        let window = &found.window;
        let shown = matches!(window.record.kind, WindowKind::Fruit | WindowKind::Soak | WindowKind::Other);
        let own = window.origin.writer == Writer::Farm && found.counts(book) && shown;
        let days = found.dates(findings.season).filter(|_| own)?;
        let basis = found.told.as_ref().ok()?.basis();
        Some((format!("season-{}", window.id), days, basis, What::Other(Arc::clone(window))))
    })
}
