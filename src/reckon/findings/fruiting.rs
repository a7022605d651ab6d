//! When the air of the farm suits each strain.

use std::sync::Arc;

use strum::IntoStaticStr;

use super::Findings;
use crate::book::{Book, Mushroom, Strain, Writer};
use crate::quantity::{DayOfYear, Range, Temperature};
use crate::reckon::Gap;
use crate::reckon::days::Days;
use crate::reckon::fruiting::{DAYS_OF_A_MONTH, stretches, suitable};
use crate::reckon::week::Week;
use crate::record::said::{Band, Stage};
use crate::record::source::SourceKind;
use crate::record::strain::Class;

impl Findings {
    /// The months, 1 to 12, in which a mushroom fruits as the farm can tell: those of its region's seasons, or else those in
    /// which the air may suit some strain for a week or longer; and those in which this farm picked.
    pub fn fruiting_months(&self, mushroom: &str) -> Vec<i8> {
        let of = self.fruiting().iter().filter(|found| found.mushroom.id == mushroom);
        let days: Vec<Days> = of.map(FruitingFinding::told).collect();
        let told = |days: &Days, month: i8| DayOfYear::days_of(month).filter(|day| days.contains(*day)).count();
        let picked = self.outdoors_of(mushroom).map(|found| found.months_picked(None, 1)).unwrap_or_default();
        let fruits = |month: &i8| {
            days.iter().any(|days| told(days, *month) >= DAYS_OF_A_MONTH)
                || picked.iter().any(|picked| picked.month == *month)
        };
        (1..=12).filter(fruits).collect()
    }
}

/// When the air suits a strain, or a mushroom of which no strain is recorded.
#[derive(Debug, Clone)]
pub struct FruitingFinding {
    /// The strain; `None` for any strain of the mushroom.
    pub strain: Option<Arc<Strain>>,
    /// The mushroom.
    pub mushroom: Arc<Mushroom>,
    /// The bands that count.
    pub bands: Vec<Band>,
    /// What kind of bands they are.
    pub kind: BandKind,
    /// The days of the seasons that sources give for the farm's region, where there are any.
    pub season: Option<Days>,
    /// Suitable days week by week, or why they cannot be told.
    pub weeks: Result<Vec<WeekDays>, Gap>,
    /// The days that suit by every band.
    pub best: Days,
    /// The days that at least one band calls possible.
    pub possible: Days,
}

/// What kind of bands count for a strain.
#[derive(Debug, Clone, Copy, PartialEq, Eq, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum BandKind {
    /// What this farm measured on its own strain.
    Own,
    /// What sources say of it outdoors.
    Outdoors,
    /// Figures from growing rooms alone, which tell no month.
    #[strum(serialize = "growing-rooms")]
    Indoors,
    /// None.
    None,
}

impl BandKind {
    /// The kind as tables write it.
    pub fn word(self) -> &'static str {
        self.into()
    }
}

/// The suitable days of a week.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeekDays {
    /// The week.
    pub week: Week,
    /// Suitable days, least and most over the bands, 0 to 7.
    pub days: [f64; 2],
}

impl FruitingFinding {
    /// The id of the strain, or of the mushroom where there is none.
    pub fn id(&self) -> &str {
        self.strain.as_ref().map_or(&self.mushroom.id, |strain| &strain.id)
    }

    /// The name of the strain, or of the mushroom where there is none.
    pub fn name(&self) -> &str {
        self.strain.as_ref().map_or_else(|| self.mushroom.name(), |strain| &strain.record.name)
    }

    /// The days on which the strain fruits as far as can be told: those of its region's seasons, or else those whose air may
    /// suit it.
    pub fn told(&self) -> Days {
        self.season.clone().unwrap_or_else(|| self.best.or(&self.possible))
    }

    /// Some days without those that lie outside the seasons of the region, where there are any.
    pub fn in_season(&self, days: &Days) -> Days {
        self.season.as_ref().map_or_else(|| days.clone(), |season| days.and(season))
    }

    /// Whether rain decides, so that air alone says little (BRU09 of wide-range and warm-weather strains).
    pub fn rain_decides(&self) -> bool {
        self.strain.as_ref().is_some_and(|strain| matches!(strain.record.class, Some(Class::WideRange | Class::Warm)))
    }
}

/// When the air suits every strain of the mushrooms that the front pages show.
pub fn all(findings: &Findings) -> Vec<FruitingFinding> {
    let mut all = Vec::new();
    for mushroom in findings.mushrooms() {
        let of = |strain: &&Arc<Strain>| strain.mushroom.id == mushroom.id;
        let mut strains: Vec<&Arc<Strain>> = findings.book.strains.values().filter(of).collect();
        strains.sort_by_key(|strain| (strain.origin.writer == Writer::Handbook, &strain.id));
        let strains = strains.into_iter().map(Some);
        let any = strains.len() == 0;
        all.extend(strains.chain(any.then_some(None)).map(|strain| one(findings, strain, mushroom)));
    }
    all
}

/// When the air suits a mushroom, by what is said of no strain in particular.
pub fn any_strain(findings: &Findings, mushroom: &Arc<Mushroom>) -> FruitingFinding {
    one(findings, None, mushroom)
}

/// Why figures from growing rooms tell no month.
const ROOMS: &str = "only temperatures of growing rooms are published, and they tell no month outdoors";

/// The weeks of a year of the farm.
pub fn weeks(findings: &Findings) -> impl Iterator<Item = Week> {
    let axis = findings.axis();
    (0..).map(move |step| Week::of(axis).later(step)).take_while(move |week| week.monday() < axis.a_year_later())
}

fn one(findings: &Findings, strain: Option<&Arc<Strain>>, mushroom: &Arc<Mushroom>) -> FruitingFinding {
    let (kind, bands) = bands(&findings.book, strain, mushroom);
    let ranges: Vec<Range<Temperature>> = bands.iter().map(|band| band.range.clone()).collect();
    let air = match (kind, &findings.known().air) {
        (BandKind::None, _) => Err(Gap::NotPublished("the temperature at which it fruits")),
        (BandKind::Indoors, _) => Err(Gap::Outside(ROOMS)),
        (_, None) => {
            Err(Gap::NotRecorded("the air of the farm (`monthly_means` under `climate` in farm.yaml: twelve of them)"))
        }
        (_, Some(air)) => Ok(air),
    };
    let of_week = |air, week: Week| Some(WeekDays { week, days: suitable(air, &ranges, &week.days())? });
    let weeks = air.clone().map(|air| weeks(findings).filter_map(|week| of_week(air, week)).collect());
    let (best, possible) = air.map_or_else(|_| (Days::none(), Days::none()), |air| stretches(air, &ranges));
    let outdoors = findings.outdoors_of(&mushroom.id);
    let season = outdoors.and_then(|found| found.season(strain.map(|strain| strain.id.as_str())));
    FruitingFinding {
        strain: strain.cloned(),
        mushroom: Arc::clone(mushroom),
        bands,
        kind,
        season,
        weeks,
        best,
        possible,
    }
}

/// The bands that count: what the farm measured, then what is said of the strain outdoors, of its mushroom outdoors, and
/// last what growing rooms show.
fn bands(book: &Book, strain: Option<&Arc<Strain>>, mushroom: &Mushroom) -> (BandKind, Vec<Band>) {
    let fruiting = |bands: &[Band], indoors: bool| -> Vec<Band> {
        bands.iter().filter(|band| band.stage == Stage::Fruiting && band.indoors == indoors).cloned().collect()
    };
    let of_mushroom = &mushroom.record.temperatures;
    let of_strain: &[Band] = strain.map_or(&[], |strain| &strain.record.temperatures);
    let measured = |band: &Band| {
        let source = book.sources.get(band.source.as_str());
        source.is_some_and(|source| source.record.kind == SourceKind::ThisFarm)
    };
    let outdoors = fruiting(of_strain, false);
    let tiers = [
        (BandKind::Own, outdoors.iter().filter(|band| measured(band)).cloned().collect()),
        (BandKind::Outdoors, outdoors),
        (BandKind::Outdoors, fruiting(of_mushroom, false)),
        (BandKind::Indoors, fruiting(of_strain, true)),
        (BandKind::Indoors, fruiting(of_mushroom, true)),
    ];
    tiers.into_iter().find(|(_, bands)| !bands.is_empty()).unwrap_or((BandKind::None, Vec::new()))
}
