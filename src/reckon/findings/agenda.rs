//! All dated work of the season, in the order of its dates: what stands in the calendar.

use std::sync::Arc;

use pulldown_cmark::{Event, TagEnd};

use super::{Felling, Findings, RotaFinding, batches::Stage};
use crate::{
    book::{Book, Window, Wood, Writer},
    quantity::{Date, count},
    read::markdown::events,
    reckon::{
        days::Interval,
        season::{Basis, Told},
    },
    record::{
        caution::{Severity, Task},
        window::WindowKind,
    },
};

/// Woods that a title names before it counts the others.
const NAMED: usize = 3;
/// How the title of an order begins.
pub const ORDER: &str = "Last day to order ";

/// One piece of dated work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Work {
    /// A name that stays the same from edition to edition, so that a calendar can update what it holds.
    pub uid: String,
    /// What kind of work it is.
    pub kind: WorkKind,
    /// Its first day.
    pub from: Date,
    /// Its last day.
    pub to: Date,
    /// The work in a few words.
    pub title: String,
    /// What a reader should know of it, in sentences.
    pub about: String,
    /// The gravest cautions of the work.
    pub cautions: Vec<String>,
}

/// A kind of dated work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WorkKind {
    /// Trees may come down.
    Fell,
    /// Trees must not be cut.
    NoCut,
    /// An order has to go out.
    Order,
    /// Logs are inoculated.
    Inoculate,
    /// A batch may give its first mushrooms.
    FirstFruit,
    /// Logs go into the tank.
    Soak,
    /// A season of the farm's own.
    Other,
}

impl WorkKind {
    /// The kind as tables write it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fell => "fell",
            Self::NoCut => "no-cut",
            Self::Order => "order",
            Self::Inoculate => "inoculate",
            Self::FirstFruit => "first-fruit",
            Self::Soak => "soak",
            Self::Other => "other",
        }
    }

    /// The tasks whose cautions go with it.
    const fn tasks(self) -> &'static [Task] {
        match self {
            Self::Fell => &[Task::Felling],
            Self::Inoculate => &[Task::Drilling, Task::Waxing],
            Self::FirstFruit => &[Task::Harvest],
            Self::Soak => &[Task::Soaking],
            Self::NoCut | Self::Order | Self::Other => &[],
        }
    }
}

/// All dated work of the season.
#[must_use]
pub fn all(book: &Book, findings: &Findings) -> Vec<Work> {
    let mut work = fellings(findings);
    work.extend(no_cuts(findings));
    work.extend(orders(findings));
    work.extend(inoculations(findings));
    work.extend(first_fruits(findings));
    work.extend(findings.rotas().iter().flat_map(soaks));
    work.extend(own_seasons(book, findings));
    for one in &mut work {
        one.cautions = cautions(book, one.kind.tasks());
        one.uid = format!("{}-{}", one.uid, findings.season.year);
    }
    work.sort_by(|a, b| (a.from, a.kind, &a.uid).cmp(&(b.from, b.kind, &b.uid)));
    work
}

/// The grave cautions of some tasks, those that hold for any wood and any mushroom.
fn cautions(book: &Book, tasks: &[Task]) -> Vec<String> {
    let holds = |caution: &&Arc<crate::book::Caution>| {
        let record = &caution.record;
        let general = caution.woods.is_empty() && caution.mushrooms.is_empty();
        general && record.severity == Severity::Grave && record.tasks.iter().any(|task| tasks.contains(task))
    };
    let says =
        |caution: &Arc<crate::book::Caution>| format!("{}: {}", caution.record.severity.words(), caution.record.says);
    book.cautions.values().filter(holds).map(says).collect()
}

fn work(uid: String, kind: WorkKind, (from, to): (Date, Date), title: String, about: String) -> Work {
    Work { uid, kind, from, to, title, about, cautions: Vec::new() }
}

/// Names in one sentence part, some of them counted.
fn few(names: &[&str], noun: &str) -> String {
    match names {
        [] => noun.to_owned(),
        [one] => (*one).to_owned(),
        names if names.len() <= NAMED => {
            format!("{} and {}", names[..names.len() - 1].join(", "), names[names.len() - 1])
        }
        names => format!("{} and {} more {noun}", names[..NAMED - 1].join(", "), names.len() - NAMED + 1),
    }
}

/// The names of woods; of a group, the shorter one.
fn names(woods: &[Arc<Wood>]) -> Vec<&str> {
    woods.iter().map(|wood| short_name(wood)).collect()
}

fn short_name(wood: &Wood) -> &str {
    wood.record.names.get(1).filter(|_| !wood.is_species()).map_or_else(|| wood.name(), String::as_str)
}

/// A name for a felling by the windows that make its days, which stays when woods come and go.
fn windows_id(felling: &Felling) -> String {
    let ids = |windows: &[(Arc<Window>, Told)]| windows.iter().map(|(window, _)| window.id.clone()).collect::<Vec<_>>();
    let (cut, taken) = (ids(&felling.cut).join("-"), ids(&felling.taken).join("-"));
    if taken.is_empty() { cut } else { format!("{cut}-less-{taken}") }
}

fn fellings(findings: &Findings) -> Vec<Work> {
    let mut all = Vec::new();
    for (index, felling) in findings.fellings().iter().enumerate() {
        for (part, interval) in (1..).zip(&felling.intervals) {
            let names = names(&felling.woods);
            let whole = findings.season.dates(*interval);
            let fits = fits(findings, index, *interval);
            let rest =
                if fits.is_some() { "Felled in these days their logs rest as long as they should. " } else { "" };
            all.push(work(
                format!("fell-{}-{part}", windows_id(felling)),
                WorkKind::Fell,
                fits.unwrap_or(whole),
                format!("Fell {}", few(&names, "woods")),
                format!(
                    "Trees of these woods may come down from {} to {}: {}. {rest}{} Felling is for a trained feller.",
                    whole.0.show(),
                    whole.1.show(),
                    names.join(", "),
                    basis_words(felling.basis(*interval))
                ),
            ));
        }
    }
    all
}

/// The first and the last day of a felling stretch on which a tree may come down so that its logs rest as long as the farm
/// has chosen, over all mushrooms; `None` where nothing is inoculated after it.
fn fits(findings: &Findings, felling: usize, stretch: Interval) -> Option<(Date, Date)> {
    let groups = findings.groups();
    let of_felling = groups.iter().filter(|group| group.first.felling == felling);
    let carried = of_felling.flat_map(|group| &group.first.carried).filter(|carried| carried.felling == stretch);
    let dates: Vec<(Date, Date)> = carried.map(|carried| findings.season.dates(carried.fits)).collect();
    Some((dates.iter().map(|(from, _)| *from).min()?, dates.iter().map(|(_, to)| *to).max()?))
}

/// What the days of a felling rest on, in a sentence.
const fn basis_words(basis: Basis) -> &'static str {
    match basis {
        Basis::Modelled => "The days are modelled and may be wrong by one to two weeks.",
        Basis::Observed => "The days are those of an average year on this farm.",
        Basis::Dated => "The days are those of the season window.",
    }
}

fn no_cuts(findings: &Findings) -> Vec<Work> {
    let mut taken: Vec<&(Arc<Window>, Told)> = findings.fellings().iter().flat_map(|felling| &felling.taken).collect();
    taken.sort_by(|a, b| a.0.id.cmp(&b.0.id));
    taken.dedup_by(|a, b| a.0.id == b.0.id);
    let of = |(window, told): &(Arc<Window>, Told)| {
        let woods = names(&window.woods);
        work(
            format!("no-cut-{}", window.id),
            WorkKind::NoCut,
            findings.season.dates(told.interval()),
            format!("Do not cut {}", if woods.is_empty() { "any tree".to_owned() } else { few(&woods, "woods") }),
            format!("{}. {}", window.record.name, plain(&window.record.says)),
        )
    };
    taken.into_iter().map(of).collect()
}

fn orders(findings: &Findings) -> Vec<Work> {
    let of = |purchase: &super::PurchaseFinding| {
        let day = purchase.order_by?;
        let word = purchase.item.words();
        let (item, name) = match &purchase.strain {
            Some(strain) => (format!("{word}-{}", strain.id), format!("{word} of {}", strain.record.name)),
            None => (word.to_owned(), word.to_owned()),
        };
        let opens = purchase.window.map_or_else(String::new, |(from, _)| {
            format!(" It is wanted on {}, when inoculation begins.", from.show())
        });
        Some(work(
            format!("order-{}", item.replace(' ', "-")),
            WorkKind::Order,
            (day, day),
            format!("{ORDER}{name}"),
            format!("Ordered by today it comes in time.{opens}"),
        ))
    };
    findings.purchases().iter().filter_map(of).collect()
}

fn inoculations(findings: &Findings) -> Vec<Work> {
    let mut all = Vec::new();
    for group in findings.groups() {
        let felling = &findings.fellings()[group.first.felling];
        let woods = names(&felling.woods);
        for (part, carried) in (1..).zip(&group.first.carried) {
            let (_, down) = findings.season.dates(carried.fits);
            let on = if group.woods_matter { format!(" on {}", few(&woods, "woods")) } else { String::new() };
            all.push(work(
                format!("inoculate-{}-{}-{part}", group.first.mushroom.id, windows_id(felling)),
                WorkKind::Inoculate,
                findings.season.dates(carried.inoculation),
                format!("Inoculate {}{on}", few(&group.mushrooms, "mushrooms")),
                format!(
                    "{} on {}. The logs rest {} to {}, so their trees are down by {}.",
                    group.mushrooms.join(", "),
                    woods.join(", "),
                    group.first.rest.low.written(),
                    group.first.rest.high.written(),
                    down.show()
                ),
            ));
        }
    }
    all
}

/// Batches that may give their first mushrooms in this season's growing year.
fn first_fruits(findings: &Findings) -> Vec<Work> {
    let year = findings.season.growing_year();
    let of = |found: &super::BatchFinding| {
        let fresh = matches!(found.stage, Stage::MayFruit | Stage::Cropping(1));
        let untouched = found.years.iter().all(|year| year.picked.is_none());
        let [from, _] = found.first_span().filter(|_| fresh && untouched)?;
        let day = suitable_from(findings, &found.batch.strain.id, from.max(findings.axis()));
        (day <= findings.season.growing_year_ends(year)).then(|| {
            work(
                format!("first-fruit-{}", found.batch.id),
                WorkKind::FirstFruit,
                (day, day),
                format!("Look for the first mushrooms on batch {}", found.batch.id),
                format!(
                    "{}, {} inoculated on {}. From now on these logs may give their first mushrooms, when the air \
                     suits and it rains. Eat nothing that is not the planted mushroom.",
                    found.batch.strain.record.name,
                    count(found.left(), "log", "logs"),
                    found.batch.record.inoculated.show()
                ),
            )
        })
    };
    findings.batches().iter().filter_map(of).collect()
}

/// The first day on or after another whose air suits a strain; that day itself where nothing is known of it.
fn suitable_from(findings: &Findings, strain: &str, from: Date) -> Date {
    let air = findings.fruiting().iter().find(|found| found.id() == strain);
    let suits = |day: &Date| air.is_some_and(|air| air.best.contains(day.day_of_year().number()));
    (0..365).map(|days| from.plus(days)).find(suits).unwrap_or(from)
}

fn soaks(rota: &RotaFinding) -> Vec<Work> {
    let of = |turn: &super::rota::RotaTurn| {
        let logs = turn.logs.iter().map(|(batch, logs)| format!("{logs} of batch {}", batch.id));
        work(
            format!("soak-{}-week-{:02}", rota.strain.id, turn.week),
            WorkKind::Soak,
            (turn.date, turn.date),
            format!("Soak {} of {}, group {}", count(turn.count(), "log", "logs"), rota.strain.record.name, turn.group),
            format!(
                "Into the tank: {}. Look every day; pick until about {}.",
                logs.collect::<Vec<_>>().join(", "),
                turn.picked_by().show()
            ),
        )
    };
    rota.turns.iter().map(of).collect()
}

/// Seasons that the farm has written and that no other work shows.
fn own_seasons(book: &Book, findings: &Findings) -> Vec<Work> {
    let own = |found: &&super::WindowFinding| {
        let kind = found.window.record.kind;
        found.window.origin.writer == Writer::Farm
            && found.counts(book)
            && matches!(kind, WindowKind::Fruit | WindowKind::Soak | WindowKind::Other)
    };
    let of = |found: &super::WindowFinding| {
        let dates = found.dates(findings.season)?;
        let window = &found.window;
        Some(work(
            format!("season-{}", window.id),
            WorkKind::Other,
            dates,
            window.record.name.clone(),
            plain(&window.record.says),
        ))
    };
    findings.windows().iter().filter(own).filter_map(of).collect()
}

/// Markdown without its links, as a calendar shows it.
fn plain(markdown: &str) -> String {
    events(markdown)
        .filter_map(|event| match event {
            Event::Text(text) | Event::Code(text) => Some(text.into_string()),
            Event::SoftBreak | Event::HardBreak | Event::End(TagEnd::Paragraph) => Some(" ".to_owned()),
            _ => None,
        })
        .collect::<String>()
        .trim()
        .to_owned()
}
