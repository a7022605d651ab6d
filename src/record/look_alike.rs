//! A look-alike: a mushroom that is taken for one that is grown, and the features by which mushrooms are compared.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;
use super::said::{Mark, cited};
use super::source::Source;
use super::words::words;

/// A look-alike, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct LookAlike {
    /// Its common name.
    pub name: String,
    /// Its scientific name.
    pub scientific: String,
    /// True where eating it can kill.
    #[serde(default)]
    pub deadly: bool,
    /// Colour of its spore print.
    pub print: String,
    /// What an expert looks at.
    pub apart: String,
    /// What it does to those who eat it.
    pub harm: String,
    /// What it looks like, part by part.
    #[serde(default)]
    pub features: Vec<Feature>,
    /// Who says so.
    #[schemars(length(min = 1))]
    pub sources: Vec<Id<Source>>,
    /// How the figures came here.
    #[serde(default)]
    pub mark: Mark,
}

cited! {
    /// What a part of a mushroom looks like.
    pub struct Feature {
        /// The part.
        pub part: Part,
        /// What it looks like, in a few words; a size only where a source gives it.
        #[schemars(extend("examples" = ["rounded, {40 to 100 mm} across"]))]
        pub says: String,
    }
}

words! {
    /// A part of a mushroom that is compared.
    pub enum Part {
        /// Its shape and breadth.
        Cap = "cap",
        /// Gills, pores, spines or none.
        Underside = "underside",
        /// Where it stands.
        Stem = "stem",
        /// What is left of the veil.
        Ring = "ring",
        /// What the cap is covered with.
        Skin = "surface of the cap",
        /// What is seen in a cut.
        Flesh = "flesh",
        /// In what company, and on what.
        Growth = "how it grows",
    }
}
