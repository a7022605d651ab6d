//! The farm: where it is, what it grows, the logs it cuts, how it lifts, works and sells, and the dates it has observed.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;
use super::caution::Tool;
use super::mushroom::Mushroom;
use super::window::Window;
use super::wood::{Use, Wood};
use super::words::words;
use crate::quantity::{Code, Date, Duration, Length, Mass, Range, Temperature, TemperatureStep, Units};

/// The farm's own record, `farm.yaml`.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Farm {
    /// The farm's name.
    pub name: String,
    /// A few sentences for the front page (Markdown).
    pub about: Option<String>,
    /// Where it is.
    pub place: Place,
    /// The year in which this season's dormant period begins.
    #[schemars(range(min = 1900, max = 2200), extend("examples" = [2026]))]
    pub season: i16,
    /// The units of the guide.
    #[serde(default)]
    pub units: Units,
    /// The size of log sought.
    #[serde(default)]
    pub log: LogSize,
    /// The rest between felling and inoculation that this farm keeps to.
    #[schemars(extend("between" = ["0 days", "1 year"]))]
    pub rest: Option<Range<Duration>>,
    /// The mushrooms it grows or would grow.
    #[serde(default)]
    pub grows: Vec<Id<Mushroom>>,
    /// The woods it has.
    #[serde(default)]
    pub woods: Vec<Id<Wood>>,
    /// What the farm keeps trees for; a tree that comes down says what is given up.
    #[serde(default)]
    #[schemars(extend("examples" = [["sap", "mast"]]))]
    pub keep_for: Vec<Use>,
    /// The regional no-cut windows that hold here.
    #[serde(default)]
    pub no_cut: Vec<Id<Window>>,
    /// How help finds the farm.
    pub rescue: Option<Rescue>,
    /// The farm's own lift, where it is not one of the usual ones.
    pub lift: Option<Lift>,
    /// How fast the farm works, and how many hands it has.
    #[serde(default)]
    pub work: Work,
    /// What the farm is paid and pays.
    pub money: Option<Money>,
    /// Monthly means of the air.
    pub climate: Option<Climate>,
    /// The places in which logs lie; left out, there is one.
    #[serde(default)]
    pub yards: Vec<Yard>,
    /// How logs are soaked, where the farm has a tank.
    pub soak: Option<Soak>,
    /// How many tags are printed for each batch of this winter; left out, one for each of its logs.
    #[schemars(range(min = 0, max = 10_000), extend("examples" = [1]))]
    pub tags: Option<u32>,
    /// The heads of columns that the farm adds to its sheets for itself.
    #[serde(default)]
    pub columns: Columns,
    /// Dates observed in past years.
    #[serde(default)]
    pub observed: Observed,
    /// The date of this edition of the guide.
    pub edition: Option<Date>,
    /// A folder whose files stand in for those of the built-in theme.
    pub look: Option<String>,
}

/// Where the farm is.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Place {
    /// What people call the place.
    pub name: Option<String>,
    /// The country, or better the state or province, by its ISO 3166 code.
    #[serde(rename = "where")]
    pub code: Option<Code>,
    /// Degrees north of the equator; south is negative.
    #[schemars(range(min = -90.0, max = 90.0), extend("examples" = [43.6]))]
    pub latitude: f64,
    /// Degrees east of Greenwich; west is negative.
    #[schemars(range(min = -180.0, max = 180.0), extend("examples" = [-72.5]))]
    pub longitude: f64,
    /// Height above the sea.
    #[schemars(extend("between" = ["-430 m", "6000 m"], "examples" = ["290 m"]))]
    pub elevation: Option<Length>,
}

impl Place {
    /// Whether it lies south of the equator.
    pub fn is_south(&self) -> bool {
        self.latitude < 0.0
    }
}

/// How help finds whoever is hurt.
#[derive(Debug, Clone, Default, Deserialize, Serialize, JsonSchema)]
pub struct Rescue {
    /// The road and the gate, in words that a driver follows.
    pub way_in: Option<String>,
    /// Where a telephone works.
    pub phone: Option<String>,
    /// The hospital that takes people in.
    pub hospital: Option<String>,
}

/// The size of log that the farm cuts.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct LogSize {
    /// Diameters over bark: the thinnest at the small end, the thickest at the middle.
    #[schemars(extend("between" = ["1 in", "24 in"]))]
    pub diameter: Range<Length>,
    /// Length.
    #[schemars(extend("between" = ["6 in", "80 in"]))]
    pub length: Length,
}

impl Default for LogSize {
    /// The size that most bulletins ask for: 4–6 in by 40 in (common practice).
    fn default() -> Self {
        let diameter = Range { low: Length::of_inches(4.0), high: Length::of_inches(6.0) };
        Self { diameter, length: Length::of_inches(40.0) }
    }
}

/// A lift as the Revised NIOSH Lifting Equation measures it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Lift {
    /// The lift in a few words.
    pub name: String,
    /// Height of the hands above the floor where the lift begins.
    #[schemars(extend("between" = ["0 in", "80 in"]))]
    pub from: Length,
    /// Height of the hands above the floor where the lift ends.
    #[schemars(extend("between" = ["0 in", "80 in"]))]
    pub to: Length,
    /// From between the ankles to under the hands, where the lift begins; left out, estimated from the log's thickness.
    #[schemars(extend("between" = ["0 in", "40 in"]))]
    pub reach_from: Option<Length>,
    /// From between the ankles to under the hands, where the lift ends; left out, estimated from the log's thickness.
    #[schemars(extend("between" = ["0 in", "40 in"]))]
    pub reach_to: Option<Length>,
    /// Degrees by which the load lies to one side.
    #[serde(default)]
    #[schemars(range(min = 0.0, max = 180.0))]
    pub twist: f64,
    /// Lifts a minute, over a quarter of an hour.
    #[schemars(range(min = 0.0, max = 30.0), extend("examples" = [1]))]
    pub a_minute: f64,
    /// Hours for which it goes on.
    #[schemars(range(min = 0.0, max = 24.0), extend("examples" = [1]))]
    pub hours: f64,
    /// How well the hands hold; bark and gloves are poor.
    #[serde(default)]
    pub grip: Grip,
    /// Whether the log is set down with care, so that the end of the lift counts too.
    #[serde(default = "yes")]
    pub set_down_with_care: bool,
    /// Whether the log is wet from the tank.
    #[serde(default)]
    pub soaked: bool,
    /// What of this lift the equation does not reach.
    #[serde(default)]
    pub outside: Vec<Outside>,
}

const fn yes() -> bool {
    true
}

words! {
    /// How well the hands hold the load.
    #[derive(Default)]
    pub enum Grip {
        /// Well-shaped handles.
        Good,
        /// Fingers bent under it at a right angle.
        Fair,
        /// Bulky, rough, or held in gloves.
        #[default]
        Poor,
    }
}

words! {
    /// A kind of work for which the lifting equation does not hold.
    pub enum Outside {
        /// With one hand.
        OneHanded,
        /// Seated or kneeling.
        SeatedOrKneeling,
        /// Where there is no room to stand freely.
        Cramped,
        /// A load that shifts.
        ShiftingLoad,
        /// With carrying, pushing or pulling.
        Carrying,
        /// With a barrow or a shovel.
        BarrowOrShovel,
        /// Fast, as in tossing.
        Fast,
        /// On wet, muddy or icy ground.
        SlipperyGround,
        /// In heat or cold.
        HotOrCold,
        /// By two people together.
        Shared,
    }
}

/// How fast the farm works, and how many hands it has.
#[derive(Debug, Clone, Default, Deserialize, Serialize, JsonSchema)]
pub struct Work {
    /// People on an inoculation day.
    #[schemars(range(min = 1, max = 500))]
    pub hands: Option<u32>,
    /// The tools in use that bring a danger of their own.
    #[serde(default)]
    pub tools: Vec<Tool>,
    /// Minutes of one pair of hands to drill a log.
    #[schemars(range(min = 0.1, max = 240.0))]
    pub drilling_minutes: Option<f64>,
    /// Minutes of one pair of hands to fill a log.
    #[schemars(range(min = 0.1, max = 240.0))]
    pub filling_minutes: Option<f64>,
    /// Minutes of one pair of hands to wax a log.
    #[schemars(range(min = 0.1, max = 240.0))]
    pub waxing_minutes: Option<f64>,
    /// Wax that a log took.
    #[schemars(extend("between" = ["1 g", "1 kg"]))]
    pub wax_a_log: Option<Mass>,
}

/// What the farm is paid and pays, in its own money.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Money {
    /// The sign or name of the money.
    #[schemars(extend("examples" = ["$"]))]
    pub currency: String,
    /// What an hour of work costs.
    #[schemars(range(min = 0.0, max = 1000.0))]
    pub hour: Option<f64>,
    /// What mushrooms bring.
    #[serde(default)]
    pub prices: Vec<Price>,
}

/// What one mushroom brings.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Price {
    /// The mushroom.
    pub mushroom: Id<Mushroom>,
    /// The price.
    #[schemars(range(min = 0.0, max = 10_000.0), extend("examples" = [14]))]
    pub price: f64,
    /// The weight for which it is paid.
    #[schemars(extend("between" = ["10 g", "10 kg"], "examples" = ["1 lb"]))]
    pub per: Mass,
}

/// Twelve monthly means and what is known of the days about them.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Climate {
    /// Mean air temperature of each month, January first.
    #[schemars(length(equal = 12), extend("between" = ["-60 C", "50 C"]))]
    pub monthly_means: Vec<Temperature>,
    /// Standard deviation of daily means about the curve of the year, a difference of temperatures.
    #[schemars(extend("between" = ["0 C", "15 C"]))]
    pub day_to_day_deviation: Option<TemperatureStep>,
    /// The same for each month, January first, where it is known.
    #[schemars(length(equal = 12), extend("between" = ["0 C", "15 C"]))]
    pub monthly_deviations: Option<Vec<TemperatureStep>>,
    /// The day's highest less its lowest temperature, on average.
    #[schemars(extend("between" = ["0 C", "40 C"], "examples" = ["12 C"]))]
    pub daily_range: Option<TemperatureStep>,
    /// Where the means come from.
    pub station: Option<String>,
}

/// A place in which logs lie.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Yard {
    /// The name by which batches and the day book call it.
    pub name: String,
    /// What shades it.
    pub shade: Option<String>,
    /// Where its water comes from.
    pub water: Option<String>,
    /// How many logs its own tank holds.
    #[schemars(range(min = 1, max = 10_000))]
    pub tank: Option<u32>,
    /// True where it is under a roof and walls.
    #[serde(default)]
    pub indoors: bool,
    /// True where it lies on other people's land.
    #[serde(default)]
    pub off_property: bool,
}

/// How logs are soaked.
#[derive(Debug, Clone, Default, Deserialize, Serialize, JsonSchema)]
pub struct Soak {
    /// From one soak of a log to its next, in whole weeks.
    #[schemars(extend("between" = ["1 week", "1 year"], "examples" = ["8 weeks"]))]
    pub every: Option<Duration>,
    /// The most soaks of one log in a season.
    #[schemars(range(min = 1, max = 52))]
    pub soaks: Option<u32>,
    /// How long a log lies in the water.
    #[schemars(extend("between" = ["1 hour", "7 days"], "examples" = ["12 hours"]))]
    pub hours: Option<Duration>,
    /// How many logs the tank holds.
    #[schemars(range(min = 1, max = 10_000))]
    pub tank: Option<u32>,
}

/// The heads of columns that the farm adds to its sheets (CSV) for itself; pages show them with their lines.
#[derive(Debug, Clone, Default, Deserialize, Serialize, JsonSchema)]
pub struct Columns {
    /// In the sheets of `harvests`.
    #[serde(default)]
    #[schemars(extend("examples" = [["Grade"]]))]
    pub harvests: Vec<String>,
    /// In those of `sales`.
    #[serde(default)]
    pub sales: Vec<String>,
    /// In the day book, `yard`.
    #[serde(default)]
    pub yard: Vec<String>,
    /// In the walk through the woods, `woodlot`.
    #[serde(default)]
    pub woodlot: Vec<String>,
}

/// Dates that the farm has observed.
#[derive(Debug, Clone, Default, Deserialize, Serialize, JsonSchema)]
pub struct Observed {
    /// The day in autumn when about 30 % of the leaves had coloured, a date a year.
    #[serde(default)]
    pub leaf_colour: Vec<Date>,
    /// The day in spring when buds swelled, a date a year.
    #[serde(default)]
    pub bud_swell: Vec<Date>,
    /// Where they were observed, if not on the farm.
    pub at: Option<Place>,
    /// A rule by which dates observed elsewhere are moved to the farm; left out, they are taken as they are.
    pub moved: Option<Move>,
}

words! {
    /// A rule by which dates are moved from place to place.
    pub enum Move {
        /// The old rule of four days a degree of latitude and 400 ft.
        Hopkins,
    }
}
