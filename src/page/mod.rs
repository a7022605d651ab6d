//! One view per page kind: what a template needs, in the reader's terms.
//!
//! | page | file | path |
//! |---|---|---|
//! | this season at a glance | [`index`] | `index.html` |
//! | all mushrooms; one mushroom | [`mushroom`] | `mushrooms/…` |
//! | all woods; one wood | [`wood`] | `woods/…` |
//! | all strains; one strain | [`strain`] | `strains/…` |
//! | all methods; one method | [`method`] | `methods/…` |
//! | the pairing table | [`pairings`] | `pairings.html` |
//! | the year | [`seasons`] | `seasons.html` |
//! | which trees come down | [`felling`] | `winter/felling.html` |
//! | one stand, its map, before and after | [`stand`] | `stands/…` |
//! | cutting to length: what logs weigh | [`bucking`] | `winter/bucking.html` |
//! | what to order | [`supply`] | `winter/supply.html` |
//! | from wishes to logs, and what a log costs | [`planning`] | `winter/planning.html` |
//! | the day of inoculation | [`inoculation`] | `winter/inoculation.html` |
//! | where each batch stands | [`batches`] | `yard/batches.html` |
//! | which logs go into the tank each week | [`rota`] | `yard/soak-rota.html` |
//! | what was picked | [`harvests`] | `yard/harvests.html` |
//! | picking and selling | [`selling`] | `yard/picking-and-selling.html` |
//! | what may go wrong; one trouble | [`trouble`] | `yard/trouble.html`, `troubles/…` |
//! | when a log is spent | [`retiring`] | `yard/retiring.html` |
//! | where the yard lies, and which stack is for which stage | [`siting`] | `yard/siting.html` |
//! | how wet the logs are | [`moisture`] | `yard/moisture.html` |
//! | safety by task | [`safety`] | `safety.html` |
//! | all notes; one note | [`note`] | `notes/…` |
//! | sources | [`sources`] | `sources.html` |
//! | terms | [`terms`] | `terms.html` |
//! | the working behind the figures | [`working`] | `working/…` |
//! | a label for each stack | [`log_tags`] | `yard/log-tags.html` |
//! | one handout, in one file | [`handout`] | `handouts/…` |
//! | the whole guide for the pocket, on paper | [`pocket`] | `pocket.html` |
//! | a record too long for its own page | [`record`] | `records/…` |
//! | everything by its name | [`a_to_z`] | `a-to-z.html` |
//!
//! [`part`] holds what several pages share, [`figure`] the drawings, [`route`] where everything lies, [`section`] the thumb
//! index.

pub mod a_to_z;
pub mod batches;
pub mod bucking;
pub mod felling;
pub mod figure;
pub mod handout;
pub mod harvests;
pub mod index;
pub mod inoculation;
pub mod log_tags;
pub mod method;
pub mod moisture;
pub mod mushroom;
pub mod note;
pub mod pairings;
pub mod part;
pub mod planning;
pub mod pocket;
pub mod record;
pub mod retiring;
pub mod rota;
pub mod route;
pub mod safety;
pub mod seasons;
pub mod section;
pub mod selling;
pub mod siting;
pub mod sources;
pub mod stand;
pub mod strain;
pub mod supply;
pub mod terms;
pub mod trouble;
pub mod wood;
pub mod working;

use serde::Serialize;
use serde_json::Value;

use crate::{
    book::Book,
    reckon::Findings,
    record::{Kind, wood::Rank},
};
use route::Route;
pub use section::Section;

/// A page of the guide.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Page {
    /// This season at a glance.
    Index,
    /// All mushrooms.
    Mushrooms,
    /// One mushroom.
    Mushroom(String),
    /// All woods.
    Woods,
    /// One wood.
    Wood(String),
    /// All strains.
    Strains,
    /// One strain.
    Strain(String),
    /// All methods.
    Methods,
    /// One method.
    Method(String),
    /// The pairing table.
    Pairings,
    /// The year.
    Seasons,
    /// Which trees come down.
    Felling,
    /// One stand.
    Stand(String),
    /// Cutting to length.
    Bucking,
    /// What to order.
    Supply,
    /// The day of inoculation.
    Inoculation,
    /// From wishes to logs.
    Planning,
    /// How wet the logs are.
    Moisture,
    /// Where each batch stands.
    Batches,
    /// Which logs go into the tank each week.
    SoakRota,
    /// What was picked.
    Harvests,
    /// Picking and selling.
    Selling,
    /// What may go wrong.
    Troubles,
    /// One trouble.
    Trouble(String),
    /// When a log is spent.
    Retiring,
    /// Where the yard lies, and which stack is for which stage.
    Siting,
    /// Safety by task.
    Safety,
    /// All notes.
    Notes,
    /// One note.
    Note(String),
    /// Sources.
    Sources,
    /// Terms.
    Terms,
    /// The formulas.
    Working,
    /// The working behind one mushroom's pairings.
    WorkingPairings(String),
    /// The working behind the dates.
    WorkingSeasons,
    /// The working behind the weights.
    WorkingWeights,
    /// The working behind holes and spawn.
    WorkingInoculation,
    /// The working behind the logs of each tree.
    WorkingTrees,
    /// The working behind the density of stands.
    WorkingStands,
    /// The working behind the limits of lifts.
    WorkingLifting,
    /// The working behind who gets which wood.
    WorkingAllocation,
    /// The working behind what to order.
    WorkingSupply,
    /// The working behind the moisture of logs.
    WorkingMoisture,
    /// The working behind the air and the light.
    WorkingClimate,
    /// The working behind suitable days.
    WorkingFruiting,
    /// The working behind batches and the soak rota.
    WorkingYard,
    /// A label for each stack.
    LogTags,
    /// One handout.
    Handout(String),
    /// The whole guide for the pocket.
    Pocket,
    /// Everything by its name.
    AToZ,
    /// A record that is too long for the page that it stands behind.
    Record(Kind, String),
}

impl Page {
    /// Every page of a guide, in the order of the thumb index.
    #[must_use]
    pub fn all(book: &Book) -> Vec<Self> {
        let mut pages = vec![Self::Index, Self::Mushrooms, Self::Woods, Self::Strains, Self::Methods, Self::Pairings];
        pages.extend([Self::Seasons, Self::Felling, Self::Bucking, Self::Supply, Self::Inoculation, Self::Planning]);
        pages.extend([Self::Batches, Self::SoakRota, Self::Moisture, Self::Harvests, Self::Selling, Self::Troubles]);
        pages.extend([Self::Retiring, Self::Siting, Self::Safety, Self::Notes, Self::Sources]);
        pages.extend([
            Self::Terms,
            Self::Working,
            Self::WorkingSeasons,
            Self::WorkingWeights,
            Self::WorkingInoculation,
            Self::WorkingTrees,
            Self::WorkingStands,
            Self::WorkingLifting,
            Self::WorkingAllocation,
            Self::WorkingSupply,
            Self::WorkingMoisture,
            Self::WorkingClimate,
            Self::WorkingFruiting,
            Self::WorkingYard,
            Self::LogTags,
            Self::Pocket,
            Self::AToZ,
        ]);
        pages.extend(book.stands.keys().cloned().map(Self::Stand));
        pages.extend(book.mushrooms.keys().cloned().map(Self::Mushroom));
        pages.extend(book.mushrooms.keys().cloned().map(Self::WorkingPairings));
        pages.extend(book.woods.keys().cloned().map(Self::Wood));
        pages.extend(book.strains.keys().cloned().map(Self::Strain));
        pages.extend(book.methods.keys().cloned().map(Self::Method));
        pages.extend(book.notes.keys().cloned().map(Self::Note));
        pages.extend(book.handouts.keys().cloned().map(Self::Handout));
        pages.extend(book.troubles.keys().cloned().map(Self::Trouble));
        pages.extend(record::long(book).into_iter().map(|(kind, id)| Self::Record(kind, id)));
        pages
    }

    /// The path inside the guide.
    #[must_use]
    pub fn path(&self) -> String {
        match self {
            Self::Index => "index.html".to_owned(),
            Self::Mushrooms => "mushrooms/index.html".to_owned(),
            Self::Mushroom(id) => format!("mushrooms/{id}.html"),
            Self::Woods => "woods/index.html".to_owned(),
            Self::Wood(id) => format!("woods/{id}.html"),
            Self::Strains => "strains/index.html".to_owned(),
            Self::Strain(id) => format!("strains/{id}.html"),
            Self::Methods => "methods/index.html".to_owned(),
            Self::Method(id) => format!("methods/{id}.html"),
            Self::Pairings => "pairings.html".to_owned(),
            Self::Seasons => "seasons.html".to_owned(),
            Self::Felling => "winter/felling.html".to_owned(),
            Self::Stand(id) => format!("stands/{id}.html"),
            Self::Bucking => "winter/bucking.html".to_owned(),
            Self::Supply => "winter/supply.html".to_owned(),
            Self::Planning => "winter/planning.html".to_owned(),
            Self::Moisture => "yard/moisture.html".to_owned(),
            Self::Batches => "yard/batches.html".to_owned(),
            Self::SoakRota => "yard/soak-rota.html".to_owned(),
            Self::Harvests => "yard/harvests.html".to_owned(),
            Self::Selling => "yard/picking-and-selling.html".to_owned(),
            Self::Troubles => "yard/trouble.html".to_owned(),
            Self::Trouble(id) => format!("troubles/{id}.html"),
            Self::Record(kind, id) => format!("records/{}-{id}.html", kind.word()),
            Self::Retiring => "yard/retiring.html".to_owned(),
            Self::Siting => "yard/siting.html".to_owned(),
            Self::LogTags => "yard/log-tags.html".to_owned(),
            Self::Handout(id) => format!("handouts/{id}.html"),
            Self::Pocket => "pocket.html".to_owned(),
            Self::AToZ => "a-to-z.html".to_owned(),
            Self::Inoculation => "winter/inoculation.html".to_owned(),
            Self::Safety => "safety.html".to_owned(),
            Self::Notes => "notes/index.html".to_owned(),
            Self::Note(id) => format!("notes/{id}.html"),
            Self::Sources => "sources.html".to_owned(),
            Self::Terms => "terms.html".to_owned(),
            Self::Working => "working/index.html".to_owned(),
            Self::WorkingPairings(id) => format!("working/pairings-{id}.html"),
            Self::WorkingSeasons => "working/seasons.html".to_owned(),
            Self::WorkingWeights => "working/weights.html".to_owned(),
            Self::WorkingTrees => "working/trees.html".to_owned(),
            Self::WorkingStands => "working/stands.html".to_owned(),
            Self::WorkingLifting => "working/lifting.html".to_owned(),
            Self::WorkingAllocation => "working/allocation.html".to_owned(),
            Self::WorkingSupply => "working/supply.html".to_owned(),
            Self::WorkingMoisture => "working/moisture.html".to_owned(),
            Self::WorkingClimate => "working/climate.html".to_owned(),
            Self::WorkingFruiting => "working/fruiting.html".to_owned(),
            Self::WorkingYard => "working/yard.html".to_owned(),
            Self::WorkingInoculation => "working/inoculation.html".to_owned(),
        }
    }

    /// The template that draws it.
    #[must_use]
    pub const fn template(&self) -> &'static str {
        match self {
            Self::Index => "index.html",
            Self::Mushrooms => "mushrooms.html",
            Self::Mushroom(_) => "mushroom.html",
            Self::Woods => "woods.html",
            Self::Wood(_) => "wood.html",
            Self::Strains => "strains.html",
            Self::Strain(_) => "strain.html",
            Self::Methods => "methods.html",
            Self::Method(_) => "method.html",
            Self::Pairings => "pairings.html",
            Self::Seasons => "seasons.html",
            Self::Felling => "felling.html",
            Self::Stand(_) => "stand.html",
            Self::Bucking => "bucking.html",
            Self::Supply => "supply.html",
            Self::Planning => "planning.html",
            Self::Moisture => "moisture.html",
            Self::Batches => "batches.html",
            Self::SoakRota => "soak-rota.html",
            Self::Harvests => "harvests.html",
            Self::Selling => "picking-and-selling.html",
            Self::Troubles => "troubles.html",
            Self::Trouble(_) => "trouble.html",
            Self::Record(..) => "record.html",
            Self::Retiring => "retiring.html",
            Self::Siting => "siting.html",
            Self::LogTags => "log-tags.html",
            Self::Handout(_) => "handout.html",
            Self::Pocket => "pocket.html",
            Self::AToZ => "a-to-z.html",
            Self::Inoculation => "inoculation.html",
            Self::Safety => "safety.html",
            Self::Notes => "notes.html",
            Self::Note(_) => "note.html",
            Self::Sources => "sources.html",
            Self::Terms => "terms.html",
            Self::Working => "working.html",
            Self::WorkingPairings(_) => "working-pairings.html",
            Self::WorkingSeasons => "working-seasons.html",
            Self::WorkingWeights => "working-weights.html",
            Self::WorkingTrees => "working-trees.html",
            Self::WorkingStands => "working-stands.html",
            Self::WorkingLifting => "working-lifting.html",
            Self::WorkingAllocation => "working-allocation.html",
            Self::WorkingSupply => "working-supply.html",
            Self::WorkingMoisture => "working-moisture.html",
            Self::WorkingClimate => "working-climate.html",
            Self::WorkingFruiting => "working-fruiting.html",
            Self::WorkingYard => "working-yard.html",
            Self::WorkingInoculation => "working-inoculation.html",
        }
    }

    /// The view that its template draws.
    #[must_use]
    pub fn view(&self, book: &Book, findings: &Findings) -> Value {
        let context = Context { book, findings, route: Route::of(&self.path()) };
        let content = match self {
            Self::Index => json(index::view(&context)),
            Self::Mushrooms => json(mushroom::index(&context)),
            Self::Mushroom(id) => json(book.mushrooms.get(id).map(|mushroom| mushroom::view(mushroom, &context))),
            Self::Woods => json(wood::index(&context)),
            Self::Wood(id) => json(book.woods.get(id).map(|wood| wood::view(wood, &context))),
            Self::Strains => json(strain::index(&context)),
            Self::Strain(id) => json(book.strains.get(id).map(|strain| strain::view(strain, &context))),
            Self::Methods => json(method::index(&context)),
            Self::Method(id) => json(book.methods.get(id).map(|method| method::view(method, &context))),
            Self::Pairings => json(pairings::view(&context)),
            Self::Seasons => json(seasons::view(&context)),
            Self::Felling => json(felling::view(&context)),
            Self::Stand(id) => json(stand::view(id, &context)),
            Self::Bucking => json(bucking::view(&context)),
            Self::Supply => json(supply::view(&context)),
            Self::Planning => json(planning::view(&context)),
            Self::Moisture => json(moisture::view(&context)),
            Self::Batches => json(batches::view(&context)),
            Self::SoakRota => json(rota::view(&context)),
            Self::Harvests => json(harvests::view(&context)),
            Self::Selling => json(selling::view(&context)),
            Self::Troubles => json(trouble::index(&context)),
            Self::Trouble(id) => json(book.troubles.get(id).map(|trouble| trouble::view(trouble, &context))),
            Self::Record(kind, id) => json(record::view(*kind, id, &context)),
            Self::Retiring => json(retiring::view(&context)),
            Self::Siting => json(siting::view(&context)),
            Self::LogTags => json(log_tags::view(&context)),
            Self::Handout(id) => json(book.handouts.get(id).map(|handout| handout::view(handout, &context))),
            Self::Pocket => json(pocket::view(&context)),
            Self::AToZ => json(a_to_z::view(&context)),
            Self::Inoculation => json(inoculation::view(&context)),
            Self::Safety => json(safety::view(&context)),
            Self::Notes => json(note::index(&context)),
            Self::Note(id) => json(book.notes.get(id).map(|note| note::view(note, &context))),
            Self::Sources => json(sources::view(&context)),
            Self::Terms => json(terms::view(&context)),
            Self::Working => json(working::index(&context)),
            Self::WorkingPairings(id) => {
                json(book.mushrooms.get(id).map(|mushroom| working::pairings(mushroom, &context)))
            }
            Self::WorkingSeasons => json(working::seasons(&context)),
            Self::WorkingWeights => json(working::weights(&context)),
            Self::WorkingTrees => json(working::trees(&context)),
            Self::WorkingStands => json(working::stands(&context)),
            Self::WorkingLifting => json(working::lifting(&context)),
            Self::WorkingAllocation => json(working::allocation(&context)),
            Self::WorkingSupply => json(working::supply(&context)),
            Self::WorkingMoisture => json(working::moisture(&context)),
            Self::WorkingClimate => json(working::climate(&context)),
            Self::WorkingFruiting => json(working::fruiting(&context)),
            Self::WorkingYard => json(working::yard(&context)),
            Self::WorkingInoculation => json(working::inoculation(&context)),
        };
        json(part::frame::Frame::of(self, &context, content))
    }
}

/// What a view is made from.
#[derive(Debug)]
pub struct Context<'a> {
    /// The book.
    pub book: &'a Book,
    /// Its findings.
    pub findings: &'a Findings,
    /// Where things lie, seen from the page.
    pub route: Route,
}

impl Context<'_> {
    /// The farm's units.
    #[must_use]
    pub const fn units(&self) -> crate::quantity::Units {
        self.findings.choice.units
    }
}

/// A view as plain data; the views hold nothing that JSON cannot.
fn json(view: impl Serialize) -> Value {
    serde_json::to_value(view).unwrap_or(Value::Null)
}

/// The heading of a list by rank.
const fn rank_words(rank: Rank) -> &'static str {
    match rank {
        Rank::Species => "species",
        Rank::Group => "group: stands for sources that name no species",
        Rank::Any => "too wide to rate",
    }
}
