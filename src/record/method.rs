//! A method: how a task is done, in ordered steps. No record gives a felling method.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;
use super::caution::Task;
use super::evidence::Way;
use super::said::{Mark, Rest, Said, cited};
use super::source::Source;
use super::strain::SpawnForm;
use crate::quantity::{Length, Mass, Range};

/// A method, as a farm or the handbook writes it.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Method {
    /// The name that pages use.
    pub name: String,
    /// The way of growing that it is, where it is one.
    pub way: Option<Way>,
    /// What the method is and when to choose it, in a few sentences (Markdown).
    pub about: String,
    /// What is done, in order.
    #[schemars(length(min = 1))]
    pub steps: Vec<Step>,
    /// Rest between felling and inoculation, where the mushroom's own record is silent.
    #[serde(default)]
    pub rest: Vec<Rest>,
    /// Hole patterns that sources give.
    #[serde(default)]
    pub patterns: Vec<Pattern>,
    /// How many logs a package of spawn fills.
    #[serde(default)]
    pub spawn: Vec<SpawnRate>,
    /// Sizes of wood that sources ask for.
    #[serde(default)]
    pub sizes: Vec<Said>,
    /// Anything else that sources say.
    #[serde(default)]
    pub remarks: Vec<Said>,
}

/// One step of a method.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Step {
    /// The step in a few words.
    pub title: String,
    /// The task whose cautions are shown at this step.
    pub task: Option<Task>,
    /// What to do (Markdown).
    pub says: String,
    /// What to have at hand.
    #[serde(default)]
    pub tools: Vec<String>,
    /// How many people it takes.
    pub hands: Option<String>,
    /// How one sees that the step is done.
    pub done_when: String,
    /// What to measure and write down, where no figure is published.
    pub measure: Option<String>,
    /// Who says so.
    #[serde(default)]
    pub sources: Vec<Id<Source>>,
    /// How it came here.
    #[serde(default)]
    pub mark: Mark,
}

cited! {
    /// A pattern of holes on a log.
    pub struct Pattern with note {
        /// The pattern in a few words.
        pub name: String,
        /// From hole to hole along the log.
        #[schemars(extend("between" = ["1 in", "24 in"]))]
        pub along: Length,
        /// From row to row round the log; left out where the source gives none.
        #[schemars(extend("between" = ["0.5 in", "12 in"]))]
        pub between: Option<Length>,
        /// Diameter of a hole.
        #[schemars(extend("between" = ["2 mm", "40 mm"]))]
        pub hole_diameter: Option<Length>,
        /// Depth of a hole.
        #[schemars(extend("between" = ["5 mm", "100 mm"]))]
        pub hole_depth: Option<Length>,
        /// The forms of spawn that it is for.
        #[serde(default)]
        pub spawn: Vec<SpawnForm>,
    }
}

cited! {
    /// How many logs of a size a package of spawn fills.
    pub struct SpawnRate {
        /// The form of spawn.
        pub form: SpawnForm,
        /// Weight of the package.
        #[schemars(extend("between" = ["0.1 kg", "50 kg"]))]
        pub package: Mass,
        /// The fewest and the most logs that it fills.
        #[schemars(extend("between" = [1, 1000]))]
        pub logs: Range<f64>,
        /// The diameters for which the figure holds.
        #[schemars(extend("between" = ["1 in", "24 in"]))]
        pub diameter: Range<Length>,
        /// The length for which the figure holds.
        #[schemars(extend("between" = ["6 in", "80 in"]))]
        pub length: Length,
    }
}
