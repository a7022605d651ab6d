//! One view per page kind: what a template needs, in the reader's terms.
//!
//! Pages stand on floors, and no floor leans on one above it:
//!
//! | floor | what stands there |
//! |---|---|
//! | ground | [`name`], what pages there are; [`section`], the thumb index; [`route`], where everything lies; [`leaf`], how lists are parted; [`title`], what records are called |
//! | [`figure`] | the drawings |
//! | [`part`] | what several pages share |
//! | pages | one file a page kind, in folders where the guide has them; none knows another |
//! | [`pocket`] | what one carries in a season, bound of other pages |
//! | register | this file: one row a page kind |

/// One row a page kind, handed to a macro that makes something of every row.
///
/// A page that stands alone says its variant, path, template, section, title and view, and, where it is offered as a sheet
/// to take out of the door or as a page of the whole guide, what it is about. Pages of records have a path for every id of a
/// register of the book; pages of other things say where these come from.
macro_rules! register {
    ($rows:ident) => {
        $rows! {
            alone {
                /// From wishes to logs.
                Planning: "winter/planning.html", "planning.html", Jobs, "The plan",
                    Sheet "which wood goes to which strain, how many logs a wish needs, what a log costs"
                    => winter::planning::view;
                /// Where every log is.
                Ledger: "winter/ledger.html", "ledger.html", Jobs, "The ledger",
                    Sheet "where every log is: cut, filled, waiting, in the yard or gone" => winter::ledger::view;
                /// Which trees to fell.
                Felling: "winter/felling.html", "felling.html", Jobs, "Felling",
                    Sheet "which trees come down, stand by stand, in walking order" => winter::felling::view;
                /// Cutting to length.
                Bucking: "winter/bucking.html", "bucking.html", Jobs, "Cutting to length",
                    Sheet "the logs of each tree, what they weigh, and what one person may lift"
                    => winter::bucking::view;
                /// What to order.
                Supply: "winter/supply.html", "supply.html", Jobs, "What to order",
                    Sheet "the cheapest packages of spawn and wax, by when to order and to use them"
                    => winter::supply::view;
                /// Inoculation day.
                Inoculation: "winter/inoculation.html", "inoculation.html", Jobs, "Inoculation day",
                    Sheet "tools, people, hours, holes, spawn and wax; how much spawn for any number of logs" => winter::inoculation::view;
                /// A label for each stack.
                LogTags: "yard/log-tags.html", "log-tags.html", Jobs, "Log tags",
                    Sheet "a tag for each log, to print and cut" => yard::log_tags::first;
                /// What is written by hand in the wood and the yard.
                Cards: "yard/cards.html", "cards.html", Jobs, "Cards to fill in",
                    Sheet "walk sheet, soaking, picking, losses and stock-take, to write by hand and type in later"
                    => yard::cards::first;
                /// Where each batch is.
                Batches: "yard/batches.html", "batches.html", Jobs, "Batches",
                    Sheet "where each is in its life, what is expected and what it gave" => yard::batches::view;
                /// Which logs go into the tank each week.
                SoakRota: "yard/soak-rota.html", "soak-rota.html", Jobs, "The soak rota",
                    Sheet "which logs go into the tank on which day" => yard::soak_rota::view;
                /// Where the yard lies, and which stack is for which stage.
                Siting: "yard/siting.html", "siting.html", Jobs, "The yard",
                    Sheet "where it lies, and which stack is for which stage" => yard::siting::view;
                /// How wet the logs are.
                Moisture: "yard/moisture.html", "moisture.html", Jobs, "How wet the logs are",
                    Sheet "sample logs and slices, and when a log is too light" => yard::moisture::view;
                /// Picking and selling.
                Selling: "yard/picking-and-selling.html", "picking-and-selling.html", Jobs, "Picking and selling",
                    Sheet "when each mushroom is ripe, how to cool, pack and label it" => yard::selling::view;
                /// What was picked.
                Harvests: "yard/harvests.html", "harvests.html", Jobs, "Harvests",
                    Sheet "what was picked, beside what sources give" => yard::harvests::view;
                /// What was sold.
                Sales: "yard/sales.html", "sales.html", Jobs, "Sales",
                    Sheet "what was sold, what came home, what a strain and a wood fetched" => yard::sales::view;
                /// What may go wrong.
                Troubles: "yard/trouble.html", "troubles.html", Jobs, "Trouble",
                    Sheet "what is seen, what may be behind it, what to do" => yard::trouble::index;
                /// When a log is spent.
                Retiring: "yard/retiring.html", "retiring.html", Jobs, "Retiring logs",
                    Sheet "when a log is spent, and where it may go" => yard::retiring::view;
                /// All methods.
                Methods: "methods/index.html", "methods.html", Jobs, "Jobs",
                    Sheet "from the marked tree to the soaked log" => method::index;
                /// Safety by task.
                Safety: "safety.html", "safety.html", Safety, "Safety",
                    Sheet "read the cautions of the day's task aloud before you start" => safety::view;
                /// What holds in other places.
                Elsewhere: "elsewhere.html", "elsewhere.html", Safety, "What other places do",
                    Whole "rules, cautions and seasons that hold elsewhere, under the names of those places"
                    => elsewhere::view;
                /// What one carries in a season.
                Pocket: "pocket.html", "pocket.html", Notes, "The pocket edition",
                    Sheet "what one carries in a season, to print small and bind" => pocket::view;
                /// The pairing table.
                Pairings: "pairings.html", "pairings.html", Pairs, "What grows on what",
                    Whole "the pairing table: every mushroom on every wood, and who disagrees" => pairings::view;
                /// The year.
                Seasons: "seasons.html", "seasons.html", Dates, "Dates",
                    Whole "when to fell, when not to cut, when to inoculate, when it fruits, how long logs rest"
                    => seasons::view;
                /// Which tree is this, bare?
                KeyWinter: "key/winter.html", "tree-key.html", Hosts, "Which tree?",
                    Sheet "the key of our woods in winter: bark, buds and what lies under the tree" => key::tree::winter;
                /// Which tree is this, in leaf?
                KeySummer: "key/summer.html", "tree-key.html", Hosts, "Which tree, in leaf?",
                    Whole "the key of our woods in summer" => key::tree::summer;
                /// Which tree is this, whatever can be seen of it?
                KeyWays: "key/ways.html", "ways.html", Hosts, "Which tree, by what you see?",
                    Whole "every character of our woods: tick what you see, in any order" => key::ways::view;
                /// The mushroom at hand, beside what may be taken for it.
                KeyMushroom: "key/mushroom.html", "mushroom-key.html", Kinds, "Is it what we planted?",
                    Sheet "what is taken for our mushrooms, part by part, with the spore print" => key::mushroom::view;
                /// Sources.
                Sources: "sources.html", "sources.html", Notes, "Sources",
                    Whole "every bulletin, trial and book, and how much of it was read" => sources::view;
                /// Terms.
                Terms: "terms.html", "terms.html", Notes, "Terms of the trade",
                    Whole "what the words mean" => terms::view;
                /// The working behind the figures: questions, formulas and tables.
                WorkingIndex: "working/index.html", "working.html", Notes, "How we got this",
                    Whole "formulas and computed tables" => working::index;
                /// The year's work.
                Index: "index.html", "index.html", Today, "Today" => index::view;
                /// All mushrooms.
                Mushrooms: "mushrooms/index.html", "mushrooms.html", Kinds, "Mushrooms" => mushroom::index;
                /// All strains.
                Strains: "strains/index.html", "strains.html", Kinds, "Strains" => strain::index;
                /// All woods.
                Woods: "woods/index.html", "woods.html", Hosts, "Woods" => wood::index;
                /// All notes.
                Notes: "notes/index.html", "notes.html", Notes, "Notes" => note::index;
                /// Everything by its name.
                AToZ: "a-to-z.html", "a-to-z.html", Notes, "A to Z" => a_to_z::view;
            }
            records {
                /// One mushroom.
                Mushroom(id) of mushrooms: "mushrooms/{id}.html", "mushroom.html", Kinds => mushroom::view;
                /// One strain.
                Strain(id) of strains: "strains/{id}.html", "strain.html", Kinds => strain::view;
                /// One wood.
                Wood(id) of woods: "woods/{id}.html", "wood.html", Hosts => wood::view;
                /// One method.
                Method(id) of methods: "methods/{id}.html", "method.html", Jobs => method::view;
                /// One stand.
                Stand(id) of stands: "stands/{id}.html", "stand.html", Jobs => stand::view;
                /// One lot of logs.
                Lot(id) of lots: "lots/{id}.html", "lot.html", Jobs => winter::lot::view;
                /// One batch.
                Batch(id) of batches: "yard/batches/{id}.html", "batch.html", Jobs => yard::batch::view;
                /// One trouble.
                Trouble(id) of troubles: "troubles/{id}.html", "trouble.html", Jobs => yard::trouble::view;
                /// One handout.
                Handout(id) of handouts: "handouts/{id}.html", "handout.html", Jobs => handout::view;
                /// One note.
                Note(id) of notes: "notes/{id}.html", "note.html", Notes => note::view;
            }
            others {
                /// The batches of a year.
                BatchesOf(leaf: Leaf): leaf.path("yard/years"), "batches-of.html".to_owned(), Section::Jobs,
                    |_: &Book| leaf.title(format!("Batches of {}", leaf.year)),
                    |book: &Book, _: &Findings| Leaf::all(book.batches.values().map(|batch| batch.year))
                    => |context: &Context<'_>| json(yard::batches::of_year(*leaf, context));
                /// What was picked in a year.
                HarvestsOf(leaf: Leaf): leaf.path("yard/harvests"), "harvests-of.html".to_owned(), Section::Jobs,
                    |book: &Book| leaf.title(title::of_year("Harvests", leaf.year, book)),
                    yard::harvests::leaves => |context: &Context<'_>| json(yard::harvests::of_year(*leaf, context));
                /// What was sold in a year.
                SalesOf(leaf: Leaf): leaf.path("yard/sales"), "sales-of.html".to_owned(), Section::Jobs,
                    |book: &Book| leaf.title(title::of_year("Sales", leaf.year, book)),
                    yard::sales::leaves => |context: &Context<'_>| json(yard::sales::of_year(*leaf, context));
                /// The ledger of a winter.
                LedgerOf(leaf: Leaf): leaf.path("winter/ledger"), "ledger-of.html".to_owned(), Section::Jobs,
                    |book: &Book| leaf.title(title::of_winter(leaf.year, book)), winter::ledger::leaves
                    => |context: &Context<'_>| json(winter::ledger::of_winter(*leaf, context));
                /// The notes of a year.
                NotesOf(leaf: Leaf): leaf.path("notes/years"), "notes-of.html".to_owned(), Section::Notes,
                    |_: &Book| leaf.title(format!("Notes of {}", leaf.year)), note::leaves
                    => |context: &Context<'_>| json(note::of_year(*leaf, context));
                /// The working behind one mushroom's pairings.
                WorkingPairings(id: String): format!("working/pairings-{id}.html"), "working-pairings.html".to_owned(),
                    Section::Pairs, |book: &Book| format!("Working: {}", title::of(&Link::to(Kind::Mushroom, id), book)),
                    |book: &Book, _: &Findings| book.mushrooms.keys().cloned().collect::<Vec<_>>()
                    => |context: &Context<'_>| json(context.book.mushrooms.get(id).map(|found| working::pairings(found, context)));
                /// The working of a topic.
                Working(topic: Topic): format!("working/{}.html", topic.word()),
                    "working-topic.html".to_owned(), Section::of_topic(*topic),
                    |_: &Book| format!("Working: {}", topic.name()),
                    |_: &Book, _: &Findings| Topic::iter() => |context: &Context<'_>| working::view(*topic, context);
                /// The working behind some trees.
                WorkingTrees(grove: Grove): grove.path(), "working-topic.html".to_owned(), Section::of_topic(Topic::Trees),
                    |book: &Book| grove.title(book), |book: &Book, _: &Findings| Grove::all(book)
                    => |context: &Context<'_>| working::of_trees(grove, context);
                /// A record that is too long for the page that it stands behind.
                Record(link: Link): format!("records/{}-{}.html", link.kind.word(), link.id),
                    "record.html".to_owned(), Section::Notes,
                    |book: &Book| format!("Record: {}", title::of(link, book)),
                    |book: &Book, _: &Findings| part::sheet::long(book) => |context: &Context<'_>| json(record::view(link, context));
                /// Tags beyond those that one page holds, from part 1 on.
                LogTagsPart(part: usize): format!("yard/log-tags-{}.html", part + 1), "log-tags.html".to_owned(),
                    Section::Jobs, |_: &Book| format!("Log tags, part {}", part + 1), yard::log_tags::parts
                    => |context: &Context<'_>| json(yard::log_tags::view(*part, context));
                /// Trees to fell beyond those that one page holds, from part 1 on.
                FellingPart(part: usize): format!("winter/felling-{}.html", part + 1), "felling.html".to_owned(),
                    Section::Jobs, |_: &Book| format!("Felling, part {}", part + 1), part::falling::parts
                    => |context: &Context<'_>| json(winter::felling::view_of(*part, context));
                /// The logs of these trees.
                BuckingPart(part: usize): format!("winter/bucking-{}.html", part + 1), "bucking.html".to_owned(),
                    Section::Jobs, |_: &Book| format!("Cutting to length, part {}", part + 1), part::falling::parts
                    => |context: &Context<'_>| json(winter::bucking::view_of(*part, context));
                /// Days at the tank beyond those that one page holds, from part 1 on.
                SoakRotaPart(part: usize): format!("yard/soak-rota-{}.html", part + 1), "soak-rota.html".to_owned(),
                    Section::Jobs, |_: &Book| format!("The soak rota, part {}", part + 1), yard::soak_rota::parts
                    => |context: &Context<'_>| json(yard::soak_rota::view_of(*part, context));
                /// Cards beyond those that one page holds, from part 1 on.
                CardsPart(part: usize): format!("yard/cards-{}.html", part + 1), "cards.html".to_owned(),
                    Section::Jobs, |_: &Book| format!("Cards to fill in, part {}", part + 1), yard::cards::parts
                    => |context: &Context<'_>| json(yard::cards::view(*part, context));
            }
        }
    };
}

pub mod a_to_z;
pub mod elsewhere;
pub mod figure;
pub mod handout;
pub mod index;
pub mod leaf;
pub mod method;
pub mod mushroom;
pub mod name;
pub mod note;
pub mod pairings;
pub mod part;
pub mod pocket;
pub mod record;
pub mod route;
pub mod safety;
pub mod seasons;
pub mod section;
pub mod sources;
pub mod stand;
pub mod strain;
pub mod terms;
pub mod title;
pub mod wood;
pub mod working;

/// What is this? Keys.
pub mod key {
    pub mod mushroom;
    pub mod tree;
    pub mod ways;
}

/// The sheets of the winter.
pub mod winter {
    pub mod bucking;
    pub mod felling;
    pub mod inoculation;
    pub mod ledger;
    pub mod lot;
    pub mod planning;
    pub mod supply;
}

/// The sheets of the yard.
pub mod yard {
    pub mod batch;
    pub mod batches;
    pub mod cards;
    pub mod harvests;
    pub mod log_tags;
    pub mod moisture;
    pub mod retiring;
    pub mod sales;
    pub mod selling;
    pub mod siting;
    pub mod soak_rota;
    pub mod trouble;
}

use std::sync::Arc;

use serde_json::Value;
use strum::IntoEnumIterator;

use crate::book::Book;
use crate::reckon::{Findings, Topic};
use leaf::{Grove, Leaf};
use name::json;
pub use name::{Context, Page};
use part::frame::Frame;
use route::{Edition, Route};
pub use section::Section;

macro_rules! views {
    (
        alone { $($(#[$_d:meta])* $page:ident: $_path:literal, $_template:literal, $_section:ident, $_title:literal
            $(, $_offer:ident $_about:literal)? => $view:path;)* }
        records { $($(#[$_dr:meta])* $record:ident($_id:ident) of $records:ident: $_path_r:literal,
            $_template_r:literal, $_section_r:ident => $view_r:path;)* }
        others { $($(#[$_do:meta])* $other:ident($of:ident: $_type:ty): $_path_o:expr, $_template_o:expr,
            $_section_o:expr, $_title_o:expr, $all:expr => $view_o:expr;)* }
    ) => {
        impl Page {
            /// Every page of a guide.
            pub fn all(book: &Book, findings: &Findings) -> Vec<Self> {
                let mut pages = Self::ALONE.to_vec();
                $(pages.extend(book.$records.keys().cloned().map(Self::$record));)*
                $(pages.extend($all(book, findings).into_iter().map(Self::$other));)*
                pages
            }

            /// What its template shows of it, without the frame.
            fn content(&self, context: &Context<'_>) -> Value {
                match self {
                    $(Self::$page => json($view(context)),)*
                    $(Self::$record(id) => json(context.book.$records.get(id).map(|found| $view_r(found, context))),)*
                    $(Self::$other($of) => $view_o(context),)*
                }
            }
        }
    };
}

register!(views);

impl Page {
    /// The edition that it serves.
    pub fn edition(&self, book: &Book, findings: &Findings) -> Edition {
        match self {
            Self::Handout(_) => Edition::Handout,
            Self::Pocket => Edition::Pocket(Arc::new(pocket::codes(book, findings))),
            _ => Edition::Guide,
        }
    }

    /// The view that its template draws.
    pub fn view(&self, book: &Book, findings: &Findings) -> Value {
        let route = Route::of(&self.path()).serving(self.edition(book, findings)).within(book);
        let context = Context { book, findings, route };
        let mut view = json(Frame::of(self, &context));
        view["page"] = self.content(&context);
        view
    }
}
