//! The computed tables, by the names that commands, notes and published files use.

use strum::{EnumMessage, EnumProperty, EnumString, IntoStaticStr, VariantArray, VariantNames};

use super::caution::{Severity, Task};
use super::evidence::Word;
use super::strain::SpawnForm;
use super::tree::Decision;
use super::trouble::Stage;
use super::window::WindowKind;

/// A computed table: what it answers is its description here, and `by` names the columns by which a note may pick rows.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    EnumMessage,
    EnumProperty,
    EnumString,
    IntoStaticStr,
    VariantArray,
    VariantNames,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Table {
    /// Every mushroom, its methods and whether it answers to soaking.
    Mushrooms,
    /// Every wood, its density, moisture and bark.
    Woods,
    /// What grows on what, how well, and how far sources agree.
    #[strum(props(by = "mushroom wood word"))]
    Pairings,
    /// When to fell, when not to cut, when to inoculate.
    #[strum(props(by = "kind window"))]
    Seasons,
    /// Every strain and the temperatures it fruits at.
    #[strum(props(by = "mushroom"))]
    Strains,
    /// What a green log weighs, by wood and diameter.
    #[strum(props(by = "wood"))]
    Weights,
    /// Holes and spawn for one log and for many.
    #[strum(props(by = "spawn"))]
    Inoculation,
    /// What each tagged tree gives, and whether it comes down.
    #[strum(props(by = "stand wood decision doubtful this_winter"))]
    Trees,
    /// Which tree is this? The farm's keys, bare and in leaf, lead by lead.
    #[strum(props(by = "season wood"))]
    TreeKey,
    /// Every piece of every stem, from the stump up.
    #[strum(props(by = "wood"))]
    Bolts,
    /// The weight limit of each lift, and each log's weight beside it.
    #[strum(props(by = "wood"))]
    Lifting,
    /// Sample logs and slices: how dry each batch is.
    #[strum(props(by = "batch"))]
    Moisture,
    /// Which packages to order, and what is left over.
    #[strum(props(by = "strain"))]
    Supply,
    /// Which wood goes to which strain, and what is short.
    #[strum(props(by = "strain wood"))]
    Allocation,
    /// From a weight a week or a number of guests back to logs.
    #[strum(props(by = "strain"))]
    Planning,
    /// Where every log is: two balances, a row a line.
    #[strum(props(by = "balance wood batch line"))]
    Ledger,
    /// Every stand before and after the winter.
    #[strum(props(by = "stand"))]
    Thinning,
    /// What a log costs and may bring, with published budgets.
    #[strum(props(by = "strain"))]
    Money,
    /// The usual warmth and light of every day of the year.
    Climate,
    /// In each week, on how many days the air suits each strain, its season is, and it was picked.
    #[strum(props(by = "strain week"))]
    Fruiting,
    /// All dated work of the season, as it stands in calendar.ics.
    #[strum(props(by = "kind"))]
    Calendar,
    /// Which logs go into the tank on which day.
    #[strum(props(by = "strain"))]
    SoakRota,
    /// Where each batch stands in its life this season.
    #[strum(props(by = "batch strain wood"))]
    Batches,
    /// What was picked, day by day.
    #[strum(props(by = "batch"))]
    Harvests,
    /// What was sold and taken, by strain, wood and lot of spawn.
    #[strum(props(by = "strain wood spawn_lots"))]
    Sales,
    /// What each batch should give and gave, year by year.
    #[strum(props(by = "batch strain"))]
    Yields,
    /// Every trouble, where it shows, and its causes.
    #[strum(props(by = "when"))]
    Troubles,
    /// Every caution, by task and severity.
    #[strum(props(by = "severity task"))]
    Cautions,
    /// Every source and how much of it was read.
    Sources,
}

impl Table {
    /// Every table.
    pub const ALL: &'static [Self] = <Self as VariantArray>::VARIANTS;

    /// The names of all tables.
    pub const WORDS: &'static [&'static str] = <Self as VariantNames>::VARIANTS;

    /// The name of the table.
    pub fn word(self) -> &'static str {
        self.into()
    }

    /// What the table answers, in one line.
    ///
    /// ```
    /// use hostwood::record::table::Table;
    /// assert_eq!(Table::Harvests.about(), "what was picked, day by day");
    /// ```
    pub fn about(self) -> String {
        let text = self.get_documentation().unwrap_or_default().trim_end_matches('.');
        let mut letters = text.chars();
        letters.next().map(|first| first.to_ascii_lowercase()).into_iter().chain(letters).collect()
    }

    /// The table that a name means.
    pub fn of_word(word: &str) -> Option<Self> {
        word.parse().ok()
    }

    /// The columns by which a note may pick rows.
    pub fn filters(self) -> Vec<&'static str> {
        self.get_str("by").unwrap_or_default().split_whitespace().collect()
    }

    /// The words that a column can hold, where they are few and fixed.
    pub fn values(column: &str) -> Vec<&'static str> {
        match column {
            "word" => Word::ALL.map(Word::id).to_vec(),
            "kind" => [
                &WindowKind::ALL.map(WindowKind::id)[..],
                &["fell", "rest", "rested", "fill", "order", "use-up", "first-fruit"],
            ]
            .concat(),
            "when" => Stage::ALL.map(Stage::id).to_vec(),
            "spawn" => SpawnForm::ALL.map(SpawnForm::id).to_vec(),
            "severity" => Severity::ALL.map(Severity::id).to_vec(),
            "decision" => Decision::ALL.map(Decision::id).to_vec(),
            "doubtful" | "this_winter" => vec!["yes", "no"],
            "task" => Task::ALL.map(Task::id).to_vec(),
            _ => Vec::new(),
        }
    }
}

/// A table and the rows picked from it, written as `table:pairings?wood=american-beech`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Query {
    /// The table.
    pub table: Table,
    /// Columns and the values their rows must have.
    pub filters: Vec<(String, String)>,
}
