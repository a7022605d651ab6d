//! Every season window, and when trees of this farm may come down.

use std::sync::Arc;

use super::Findings;
use crate::book::{Book, Window, Wood, Writer};
use crate::quantity::{Date, Event, Length, SeasonEnd, Temperature, TemperatureStep, Units};
use crate::reckon::climate::Air;
use crate::reckon::days::{Days, Interval, day};
use crate::reckon::season::{Basis, Known, Observations, Season, Told, window};
use crate::reckon::{Gap, hopkins};
use crate::record::farm::{Move, Place};
use crate::record::window::WindowKind;

/// A season window, told or not.
#[derive(Debug, Clone)]
pub struct WindowFinding {
    /// The window.
    pub window: Arc<Window>,
    /// Its two ends, or why they cannot be told.
    pub told: Result<Told, Gap>,
}

impl WindowFinding {
    /// The dates of the window in a season: a window of fruiting or soaking in its growing year, any other by its dormant
    /// period; `None` where it cannot be told.
    pub fn dates(&self, season: Season) -> Option<(Date, Date)> {
        let stretch = self.told.as_ref().ok()?.interval();
        Some(match self.window.record.kind {
            WindowKind::Fruit | WindowKind::Soak => season.summer_dates(stretch),
            WindowKind::Cut | WindowKind::NoCut | WindowKind::Inoculate | WindowKind::Other => season.dates(stretch),
        })
    }

    /// The same of a tree that keeps its leaves: what leaves would tell cannot be told.
    fn without_leaves(self) -> Self {
        let by_leaf = |end: &SeasonEnd| matches!(end, SeasonEnd::Event { .. });
        let record = &self.window.record;
        if by_leaf(&record.from) || by_leaf(&record.to) { Self { told: Err(Gap::KeepsLeaves), ..self } } else { self }
    }

    /// Whether the window counts on the farm of a book: one that holds everywhere, one of the farm's own, or a no-cut
    /// window that the farm names.
    pub fn counts(&self, book: &Book) -> bool {
        let named = || book.farm.no_cut.iter().any(|named| named.id == self.window.id);
        let own = self.window.origin.writer == Writer::Farm;
        self.window.record.holds.is_everywhere() || own || (self.window.record.kind == WindowKind::NoCut && named())
    }
}

/// When trees of some woods may come down.
#[derive(Debug, Clone)]
pub struct Felling {
    /// The woods that share these days.
    pub woods: Vec<Arc<Wood>>,
    /// The felling windows that count.
    pub cut: Vec<(Arc<Window>, Told)>,
    /// The no-cut windows that are taken away.
    pub taken: Vec<(Arc<Window>, Told)>,
    /// Windows that count and cannot be told, and why.
    pub untold: Vec<(Arc<Window>, Gap)>,
    /// What is left, in the order of the season; empty where the gap says why.
    pub intervals: Vec<Interval>,
    /// Why no day can be told.
    pub gap: Option<Gap>,
}

impl Felling {
    /// A name by the windows that make its days, which stays when woods come and go.
    pub fn id(&self) -> String {
        let ids = |windows: &[(Arc<Window>, Told)]| -> Vec<String> {
            windows.iter().map(|(window, _)| window.id.clone()).collect()
        };
        let (cut, taken) = (ids(&self.cut).join("-"), ids(&self.taken).join("-"));
        if taken.is_empty() { cut } else { format!("{cut}-less-{taken}") }
    }

    /// What one of its felling stretches rests on: observed where a date that the farm observed makes an end of it.
    pub fn basis(&self, stretch: Interval) -> Basis {
        self.basis_of(stretch.from).min(self.basis_of(stretch.to))
    }

    /// What the first or last day of a felling stretch rests on.
    pub fn basis_of(&self, end: u16) -> Basis {
        let cut = self.cut.iter().flat_map(|(_, told)| [(told.from, 0), (told.to, 0)]);
        let taken = self.taken.iter().flat_map(|(_, told)| [(told.from, -1), (told.to, 1)]);
        let ends = cut.chain(taken).filter(|(other, beside)| day(i32::from(other.day) + beside) == end);
        ends.map(|(other, _)| other.basis).min().unwrap_or(Basis::Dated)
    }
}

/// What a farm knows of its year.
pub fn known(book: &Book, season: Season, units: Units) -> Known {
    let observed = &book.farm.record.observed;
    let seen = |event: Event, dates: &[Date]| Observations::of(event, dates, season, moved(book, event));
    Known {
        units,
        observed: vec![seen(Event::LeafColour, &observed.leaf_colour), seen(Event::BudSwell, &observed.bud_swell)],
        air: air(book),
        latitude: book.farm.record.place.latitude,
    }
}

/// Days by which dates observed elsewhere are moved to the farm, where it asks for that.
fn moved(book: &Book, event: Event) -> Option<i32> {
    let (farm, observed) = (&book.farm.record.place, &book.farm.record.observed);
    let (at, Move::Hopkins) = observed.at.as_ref().zip(observed.moved)?;
    let height = |place: &Place| place.elevation.as_ref().map_or(0.0, Length::feet);
    let higher = if at.elevation.is_some() { height(farm) - height(at) } else { 0.0 };
    let degrees = farm.latitude.abs() - at.latitude.abs();
    Some(hopkins::later(event, degrees, &Length::of_feet(higher)).round() as i32)
}

/// The air of the farm, where it has written its monthly means.
fn air(book: &Book) -> Option<Air> {
    let climate = book.farm.record.climate.as_ref()?;
    let means: Vec<f64> = climate.monthly_means.iter().map(Temperature::celsius).collect();
    let means: [f64; 12] = means.try_into().ok()?;
    let monthly = climate
        .monthly_deviations
        .as_ref()
        .and_then(|deviations| deviations.iter().map(TemperatureStep::base).collect::<Vec<f64>>().try_into().ok());
    let every = || climate.day_to_day_deviation.as_ref().map(|deviation| [deviation.base(); 12]);
    let deviations: Option<[f64; 12]> = monthly.or_else(every);
    Some(Air::of(&means, deviations.as_ref()))
}

/// Tells every window of a book.
pub fn windows(book: &Book, known: &Known) -> Vec<WindowFinding> {
    let tell = |found: &Arc<Window>| window(&found.record.from, &found.record.to, known);
    book.windows.values().map(|found| WindowFinding { window: Arc::clone(found), told: tell(found) }).collect()
}

/// The windows of a kind that count on this farm: its own where it has some, else those of the handbook that hold everywhere.
pub fn counting(windows: &[WindowFinding], kind: WindowKind, speaks: impl Fn(&Window) -> bool) -> Vec<WindowFinding> {
    let of_kind = windows.iter().filter(|found| found.window.record.kind == kind && speaks(&found.window));
    let (own, handbook): (Vec<WindowFinding>, Vec<WindowFinding>) =
        of_kind.cloned().partition(|found| found.window.origin.writer == Writer::Farm);
    if own.is_empty() {
        handbook.into_iter().filter(|found| found.window.record.holds.is_everywhere()).collect()
    } else {
        own
    }
}

/// Windows that are told.
pub(super) type Open = Vec<(Arc<Window>, Told)>;
/// Windows that cannot be told, and why.
pub(super) type Untold = Vec<(Arc<Window>, Gap)>;

/// Parts windows that are told from those that cannot be.
pub(super) fn parted(windows: impl IntoIterator<Item = WindowFinding>) -> (Open, Untold) {
    let (mut open, mut untold) = (Vec::new(), Vec::new());
    for found in windows {
        match found.told {
            Ok(told) => open.push((found.window, told)),
            Err(gap) => untold.push((found.window, gap)),
        }
    }
    (open, untold)
}

/// The days of some windows.
pub(super) fn days(windows: &Open) -> Days {
    windows.iter().fold(Days::none(), |days, (_, told)| days.or(&Days::of(told.interval())))
}

/// When trees may come down, woods with the same days together.
pub fn fellings(findings: &Findings) -> Vec<Felling> {
    let mut fellings: Vec<Felling> = Vec::new();
    for wood in findings.woods() {
        let felling = felling(findings, wood);
        let days = |felling: &Felling| (felling.intervals.clone(), felling.gap.clone(), felling.id());
        match fellings.iter_mut().find(|other| days(other) == days(&felling)) {
            Some(other) => other.woods.push(Arc::clone(wood)),
            None => fellings.push(felling),
        }
    }
    fellings
}

/// The no-cut windows that some fellings leave out, each once, in the order of their ids.
pub fn taken<'a>(fellings: impl IntoIterator<Item = &'a Felling>) -> Vec<&'a (Arc<Window>, Told)> {
    let mut taken: Vec<_> = fellings.into_iter().flat_map(|felling| &felling.taken).collect();
    taken.sort_by(|a, b| a.0.id.cmp(&b.0.id));
    taken.dedup_by(|a, b| a.0.id == b.0.id);
    taken
}

/// When trees of one wood may come down.
pub fn felling(findings: &Findings, wood: &Arc<Wood>) -> Felling {
    let speaks = |window: &Window| window.speaks_of_wood(wood);
    let forbids = |found: &&WindowFinding| {
        found.window.record.kind == WindowKind::NoCut && found.counts(&findings.book) && speaks(&found.window)
    };
    let cut = counting(findings.windows(), WindowKind::Cut, speaks);
    let (cut, open) =
        parted(cut.into_iter().map(|found| if wood.record.evergreen { found.without_leaves() } else { found }));
    let (taken, forbidden) = parted(findings.windows().iter().filter(forbids).cloned());
    let left = days(&cut).minus(&days(&taken)).intervals(findings.season.begins());
    let gap = match (cut.is_empty(), forbidden.first(), left.is_empty()) {
        (true, ..) => Some(open.first().map_or(Gap::NoFellingWindow, |(_, gap)| gap.clone())),
        (false, Some((window, _)), _) => Some(Gap::NoCutUntold(window.record.name.clone())),
        (false, None, true) => Some(Gap::NothingLeft),
        (false, None, false) => None,
    };
    let intervals = if gap.is_some() { Vec::new() } else { left };
    let untold = forbidden.into_iter().chain(open).collect();
    Felling { woods: vec![Arc::clone(wood)], cut, taken, untold, intervals, gap }
}
