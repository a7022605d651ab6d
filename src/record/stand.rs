//! A stand: a part of the woods that is thinned as one, and how dense it is.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::photo::Photo;
use crate::quantity::{Area, BasalArea, Date, Length};

/// A stand, as a farm writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Stand {
    /// The name that pages use.
    pub name: String,
    /// A few sentences for whoever goes there (Markdown).
    pub about: Option<String>,
    /// Photographs of it from this farm.
    #[serde(default)]
    pub photos: Vec<Photo>,
    /// The corner post from which its trees are measured.
    pub corner: Option<Corner>,
    /// Its area.
    #[schemars(extend("between" = ["100 m2", "1000 ha"]))]
    pub area: Option<Area>,
    /// The basal area to keep.
    #[schemars(extend("between" = ["1 m2/ha", "60 m2/ha"]))]
    pub target: Option<BasalArea>,
    /// Points counted with a prism or an angle gauge.
    pub prism: Option<Prism>,
    /// Plots of one size on which every tree was measured.
    pub plots: Option<Plots>,
    /// The day on which it was counted; what was felled after that day comes off the count.
    pub measured: Option<Date>,
    /// What came out of it in earlier winters.
    #[serde(default)]
    pub entries: Vec<Entry>,
    /// The height of its trees, for those whose own height was not measured.
    #[schemars(extend("between" = ["6 ft", "150 ft"]))]
    pub height: Option<Length>,
}

/// What came out of a stand in one winter.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Entry {
    /// The year in which that winter began.
    #[schemars(range(min = 1900, max = 2200), extend("examples" = [2023]))]
    pub winter: i16,
    /// How many trees came out.
    #[schemars(range(min = 0, max = 100_000))]
    pub trees: Option<u32>,
    /// How many logs they gave.
    #[schemars(range(min = 0, max = 1_000_000))]
    pub logs: Option<u32>,
    /// What their stems took up at breast height, by the acre or hectare of the stand.
    #[schemars(extend("between" = ["0.01 m2/ha", "60 m2/ha"]))]
    pub basal_area: Option<BasalArea>,
    /// The basal area of the stand before that winter, where it was counted.
    #[schemars(extend("between" = ["1 m2/ha", "80 m2/ha"]))]
    pub before: Option<BasalArea>,
}

/// The corner post of a stand, by which a rescuer finds it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Corner {
    /// Degrees north of the equator; south is negative.
    #[schemars(range(min = -90.0, max = 90.0), extend("examples" = [43.60215]))]
    pub latitude: f64,
    /// Degrees east of Greenwich; west is negative.
    #[schemars(range(min = -180.0, max = 180.0), extend("examples" = [-72.49830]))]
    pub longitude: f64,
}

/// Points counted with a prism or an angle gauge.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Prism {
    /// The basal area for which one counted tree stands.
    #[schemars(extend("between" = ["0.5 m2/ha", "20 m2/ha"], "examples" = ["10 ft2/ac"]))]
    pub factor: BasalArea,
    /// The trees counted at each point.
    #[schemars(length(min = 1), inner(range(min = 0, max = 100)))]
    pub counts: Vec<u32>,
    /// The diameters of all the counted trees, where they were measured; from them come trees an acre.
    #[serde(default)]
    #[schemars(extend("between" = ["1 in", "60 in"]))]
    pub diameters: Vec<Length>,
}

/// Plots of one size on which every tree was measured.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Plots {
    /// The area of one plot.
    #[schemars(extend("between" = ["10 m2", "2 ha"], "examples" = ["0.1 acre"]))]
    pub size: Area,
    /// How many plots were measured, those without a tree among them.
    #[schemars(range(min = 1, max = 1000))]
    pub number: u32,
    /// The diameters of all the trees on them.
    #[schemars(extend("between" = ["1 in", "60 in"]))]
    pub diameters: Vec<Length>,
}
