//! The farm: where it is, what it grows, the logs it cuts, and the dates it has observed.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Id, Kind, Record, mushroom::Mushroom, window::Window, wood::Wood};
use crate::quantity::{Date, Duration, Length, Range, Temperature, TemperatureStep, Units};

/// The farm's own record, `farm.yaml`.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
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
    /// The regional no-cut windows that hold here.
    #[serde(default)]
    pub no_cut: Vec<Id<Window>>,
    /// Monthly means of the air.
    pub climate: Option<Climate>,
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
#[serde(deny_unknown_fields)]
pub struct Place {
    /// What people call the place.
    pub name: Option<String>,
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

/// The size of log that the farm cuts.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LogSize {
    /// Thinnest and thickest diameter, over bark, at the middle.
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

/// Twelve monthly means and what is known of the days about them.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Climate {
    /// Mean air temperature of each month, January first.
    #[schemars(length(equal = 12), extend("between" = ["-60 C", "50 C"]))]
    pub monthly_means: Vec<Temperature>,
    /// Standard deviation of daily means about the month's mean, a difference of temperatures.
    pub day_to_day_deviation: Option<TemperatureStep>,
    /// Where the means come from.
    pub station: Option<String>,
}

/// Dates that the farm has observed.
#[derive(Debug, Clone, Default, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Observed {
    /// The day in autumn when about 30 % of the leaves had coloured, a date a year.
    #[serde(default)]
    pub leaf_colour: Vec<Date>,
    /// The day in spring when buds swelled, a date a year.
    #[serde(default)]
    pub bud_swell: Vec<Date>,
}

impl Record for Farm {
    const KIND: Kind = Kind::Farm;
}
