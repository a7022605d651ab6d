//! A wood: its names, density, moisture, bark, resistance to decay, hazards and quarantines.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;
use super::character::Characters;
use super::holds::Holds;
use super::photo::Photo;
use super::said::{Mark, Said, cited};
use super::source::Source;
use super::words::words;
use crate::quantity::{DayOfYear, Percent, Range};

words! {
    /// How wide a record's name reaches.
    #[derive(Default)]
    pub enum Rank {
        /// One species, or a cultivated form of one.
        #[default]
        Species,
        /// Several species or a whole genus that a source names in one word ("oak").
        Group,
        /// So wide that it rates nothing ("any hardwood").
        Any,
    }
}

words! {
    /// Broad leaves or needles.
    pub enum Leaf {
        /// A broadleaved tree, whose wood is called hardwood.
        Broad,
        /// A conifer.
        Needle,
    }
}

/// A wood, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Wood {
    /// Common names; the first is the one that pages use.
    #[schemars(length(min = 1))]
    pub names: Vec<String>,
    /// The scientific name.
    pub scientific: String,
    /// Scientific names met in other lists.
    #[serde(default)]
    pub formerly: Vec<String>,
    /// The plant family.
    pub family: Option<String>,
    /// Whether the record stands for one species or for a wider group that sources name.
    #[serde(default)]
    pub rank: Rank,
    /// The wider group whose evidence this wood inherits.
    pub part_of: Option<Id<Wood>>,
    /// Broad leaves or needles.
    pub leaf: Leaf,
    /// True where it keeps its leaves through the year, so that no leaf tells when its growth rests.
    #[serde(default)]
    pub evergreen: bool,
    /// The symbol of the tree in the federal plant list, where it has one.
    pub symbol: Option<String>,
    /// A few sentences for the grower (Markdown).
    pub about: Option<String>,
    /// Weight of the dry wood.
    pub density: Option<Density>,
    /// Water in the living tree, per cent of oven-dry weight.
    pub moisture: Option<Moisture>,
    /// Bark by weight and thickness.
    pub bark: Option<Bark>,
    /// The shape of the stem, from which logs are counted.
    pub taper: Option<Taper>,
    /// How fast its stem thickens, by a published model.
    pub growth: Option<Growth>,
    /// How well the heartwood resists decay; sapwood never does.
    pub decay_resistance: Option<DecayResistance>,
    /// How wide the ring of sapwood is.
    pub sapwood: Option<Sapwood>,
    /// Bud burst and leaf colour at a reference site.
    pub season: Option<Season>,
    /// What can hurt people or animals.
    #[serde(default)]
    pub hazards: Vec<Hazard>,
    /// Rules and pests that keep logs where they are.
    #[serde(default)]
    pub quarantine: Vec<Said>,
    /// What a standing tree of it is worth, beside its logs.
    #[serde(default)]
    pub worth: Vec<Worth>,
    /// Why a tree of it is left standing, whatever grows on it.
    #[serde(default)]
    pub refuse: Vec<Refusal>,
    /// The characters by which it is known.
    #[serde(default)]
    pub characters: Characters,
    /// Woods that are taken for it, or it for them; a pair is written once.
    #[serde(default)]
    pub alike: Vec<Alike>,
    /// Anything else that sources say.
    #[serde(default)]
    pub remarks: Vec<Said>,
    /// Photographs of it from this farm.
    #[serde(default)]
    pub photos: Vec<Photo>,
}

cited! {
    /// Why a tree is left standing.
    pub struct Refusal {
        /// The reason, in our own words (Markdown).
        pub says: String,
        /// Where it holds, or where the kind grows.
        #[serde(flatten)]
        pub holds: Holds,
    }
}

cited! {
    /// A wood that is taken for this one, and what tells the two apart.
    pub struct Alike with note {
        /// The other wood.
        pub wood: Id<Wood>,
        /// The one character that tells them apart, as it is on each.
        pub tell: String,
        /// A second one.
        pub then: Option<String>,
    }
}

words! {
    /// What a standing tree is good for.
    pub enum Use {
        /// Nuts and seeds that stock and game eat.
        Mast = "mast",
        /// Leaves and twigs that stock and game eat.
        Browse = "browse",
        /// Sap to be tapped.
        Sap = "sap",
        /// Timber.
        Timber = "timber",
        /// Nectar and pollen for bees.
        Nectar = "nectar",
        /// Shade for logs and stock.
        Shade = "shade",
        /// Holes in which animals live.
        Dens = "dens",
    }
}

cited! {
    /// How fast a stem thickens: the numbers of the model of Teck and Hilt.
    pub struct Growth {
        /// The row of the model, a species or a group of them.
        pub row: String,
        /// Square feet of basal area a year for each foot of site index.
        #[schemars(range(min = 0.0001, max = 0.01))]
        pub site: f64,
        /// How soon thickness tells, by the inch.
        #[schemars(range(min = 0.01, max = 1.0))]
        pub thickness: f64,
        /// How much thicker neighbours take away, by the square foot on an acre.
        #[schemars(range(min = 0.0, max = 0.1))]
        pub crowding: f64,
        /// Where the model was made.
        #[serde(flatten)]
        pub holds: Holds,
    }
}

cited! {
    /// What a standing tree is worth to somebody.
    pub struct Worth {
        /// What it is good for.
        #[serde(rename = "use")]
        pub good_for: Use,
        /// True where the row says that it is no good for that, and why.
        #[serde(default)]
        pub warns: bool,
        /// What the source says.
        pub says: String,
    }
}

cited! {
    /// Density of the wood, as oven-dry mass over volume, relative to water.
    pub struct Density {
        /// Basic density: oven-dry mass over green volume, relative to water (0.56 is 560 kg/m³).
        #[schemars(range(min = 0.1, max = 1.3), extend("examples" = [0.56]))]
        pub basic: f64,
        /// Standard deviation of the basic density over the species, relative to water.
        #[schemars(range(min = 0.0, max = 0.5))]
        pub deviation: Option<f64>,
        /// Oven-dry mass over the volume at 12 % moisture, relative to water.
        #[schemars(range(min = 0.1, max = 1.4))]
        pub at_12_percent: Option<f64>,
        /// Whether the species itself was measured.
        pub basis: DensityBasis,
    }
}

words! {
    /// What stands behind a density.
    pub enum DensityBasis {
        /// Measured on the species.
        Measured,
        /// Filled from the average of the genus or of all hardwoods.
        GenusAverage,
        /// Estimated by a model over many studies.
        Model,
    }
}

cited! {
    /// Water in green wood, per cent of oven-dry weight.
    pub struct Moisture {
        /// Average of the whole stem.
        #[schemars(extend("between" = ["10 %", "300 %"]))]
        pub green: Option<Percent>,
        /// The least and the most of the whole stem, where the source gives a range.
        #[schemars(extend("between" = ["10 %", "300 %"]))]
        pub span: Option<Range<Percent>>,
        /// Heartwood.
        #[schemars(extend("between" = ["10 %", "300 %"]))]
        pub heartwood: Option<Percent>,
        /// Sapwood.
        #[schemars(extend("between" = ["10 %", "300 %"]))]
        pub sapwood: Option<Percent>,
        /// Who gives heartwood and sapwood, where it is not the source of the average.
        pub parts_source: Option<Id<Source>>,
        /// How heartwood and sapwood came here, where they have a source of their own.
        pub parts_mark: Option<Mark>,
    }
}

cited! {
    /// Bark by weight and by thickness.
    pub struct Bark {
        /// Basic density of the bark, relative to water.
        #[schemars(range(min = 0.1, max = 1.3))]
        pub density: f64,
        /// Water in the bark, per cent of its oven-dry weight.
        #[schemars(extend("between" = ["10 %", "300 %"]))]
        pub moisture: Percent,
        /// Bark volume, per cent of the volume of the wood under it.
        #[schemars(extend("between" = ["0 %", "60 %"]))]
        pub share: Percent,
        /// Lines that give the diameter inside bark from the diameter outside bark.
        #[serde(default)]
        pub fits: Vec<BarkFit>,
    }
}

/// Diameter inside bark = a + b × diameter outside bark, in inches.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct BarkFit {
    /// Where the trees stood on which the line was fitted.
    pub region: String,
    /// The constant, in inches.
    #[schemars(range(min = -5.0, max = 5.0))]
    pub a: f64,
    /// The slope.
    #[schemars(range(min = 0.5, max = 1.1))]
    pub b: f64,
    /// True where the line is that of a group of species.
    #[serde(default)]
    pub of_group: bool,
    /// Who gives it.
    pub source: Id<Source>,
}

cited! {
    /// Coefficients of the stem profile of Clark, Souter & Schlaegel 1991, in inches and feet.
    pub struct Taper with note {
        /// The species or group on which the profile was fitted.
        pub row: String,
        /// True where the profile is that of a group of species.
        #[serde(default)]
        pub of_group: bool,
        /// Constant of the diameter inside bark at breast height, in inches.
        #[schemars(range(min = -5.0, max = 5.0))]
        pub a4: f64,
        /// Slope of the diameter inside bark at breast height.
        #[schemars(range(min = 0.5, max = 1.1))]
        pub b4: f64,
        /// Constant of the ratio of the diameter at 17.3 ft to that at breast height.
        #[schemars(range(min = 0.3, max = 1.5))]
        pub a17: f64,
        /// What that ratio gains with (17.3 ft over height) squared.
        #[schemars(range(min = -6.0, max = 2.0))]
        pub b17: f64,
        /// Exponent of the segment from breast height to 17.3 ft.
        #[schemars(range(min = -10.0, max = 40.0))]
        pub p: f64,
        /// Where on the upper stem the profile bends, as a part of it.
        #[schemars(range(min = 0.01, max = 1.0))]
        pub a: f64,
        /// Form of the upper stem.
        #[schemars(range(min = 0.5, max = 4.0))]
        pub b: f64,
        /// The swell of the butt below breast height.
        pub stump: Stump,
    }
}

cited! {
    /// The swell of the butt (Raile 1982): diameter × coefficient × (4.5 − h) / (h + 1) is added at h feet.
    pub struct Stump {
        /// The species or group on which it was fitted.
        pub row: String,
        /// Coefficient outside bark.
        #[schemars(range(min = 0.0, max = 0.5))]
        pub outside: f64,
        /// Coefficient inside bark.
        #[schemars(range(min = 0.0, max = 0.5))]
        pub inside: f64,
    }
}

cited! {
    /// Resistance of the heartwood to decay.
    pub struct DecayResistance {
        /// The class in the source's own words.
        pub class: String,
    }
}

cited! {
    /// Width of the sapwood ring, in which log-grown mushrooms feed.
    pub struct Sapwood {
        /// Thin, medium or thick.
        pub class: SapwoodClass,
    }
}

words! {
    /// Width of the sapwood ring in three words.
    pub enum SapwoodClass {
        /// A few rings.
        Thin,
        /// An inch or two.
        Medium,
        /// Most of a log-sized stem.
        Thick,
    }
}

cited! {
    /// Mean dates at one reference site, with the spread between years in days.
    pub struct Season {
        /// Half of the buds open.
        pub bud_burst: DayOfYear,
        /// Standard deviation of bud burst, in days.
        #[schemars(range(min = 0.0, max = 40.0))]
        pub bud_burst_deviation: f64,
        /// Half of the leaves coloured; left out for evergreens.
        pub leaf_colour: Option<DayOfYear>,
        /// Standard deviation of leaf colour, in days.
        #[schemars(range(min = 0.0, max = 40.0))]
        pub leaf_colour_deviation: Option<f64>,
        /// Half of the leaves down.
        pub leaf_fall: Option<DayOfYear>,
    }
}

words! {
    /// Whom a hazard hurts.
    pub enum Whom {
        /// People at work or at table.
        People,
        /// Farm animals and pets.
        Animals,
    }
}

cited! {
    /// A danger that comes with this wood.
    pub struct Hazard {
        /// Whom it hurts.
        pub whom: Whom,
        /// What it is and what to do, in our own words.
        pub says: String,
    }
}
