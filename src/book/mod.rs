//! The linked book: the farm laid over the handbook, every id resolved, every record checked.
//!
//! [`spelling`] and [`lay`] make one pile of handbook and farm, [`here`] knows where the farm lies, [`check`] looks for faults, [`question`] asks about what can be right but rarely is, [`link`] reads links in Markdown; the twins ([`mushroom`], [`wood`],
//! [`strain`], [`evidence`], [`bound`], [`tree`], [`lot`], [`plan`], [`batch`],
//! [`diary`], [`harvest`], [`sale`], [`trouble`], [`handout`], [`farm`]) stand where a record links to others, and elsewhere the record type
//! itself serves, [`Listed`] under its id. After [`bind`] nothing in a book changes.

pub mod batch;
pub mod bound;
pub mod check;
pub mod diary;
pub mod evidence;
pub mod farm;
pub mod handout;
pub mod harvest;
pub mod here;
pub mod lay;
pub mod link;
pub mod lot;
pub mod mushroom;
pub mod plan;
pub mod question;
pub mod sale;
pub mod spelling;
pub mod strain;
pub mod tree;
pub mod trouble;
pub mod wood;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

pub use batch::Batch;
pub use bound::{AtWork, Bound, Caution, Rule, Subject, Window};
pub use diary::Diary;
pub use evidence::Evidence;
pub use farm::Farm;
pub use handout::Handout;
pub use harvest::Harvest;
pub use here::Here;
pub use lay::{Origin, Writer};
pub use lot::Lot;
pub use mushroom::Mushroom;
pub use plan::Plan;
pub use sale::Sale;
pub use strain::Strain;
pub use tree::Tree;
pub use trouble::Trouble;
pub use wood::Wood;

use crate::fault::Fault;
use crate::quantity::Units;
use crate::read::{Found, Heap, Lost, Text};
use crate::record::tree::Tag;
use crate::record::{Id, Kind, Link, Record, source};
use crate::{fault, read, record};
use lay::{Laid, Pile};

/// Records of one kind by id.
pub type Register<T> = BTreeMap<String, Arc<T>>;

/// A record that links to no other kind, under its id.
#[derive(Debug, Clone)]
pub struct Listed<T> {
    /// Its id.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: T,
}

/// A note with its Markdown.
#[derive(Debug, Clone)]
pub struct Note {
    /// Its id.
    pub id: String,
    /// Where it comes from.
    pub origin: Origin,
    /// Its header.
    pub record: record::note::Note,
    /// Its Markdown.
    pub text: Text,
}

/// Everything that the farm and the handbook say, linked.
#[derive(Debug)]
pub struct Book {
    /// The farm.
    pub farm: Farm,
    /// Mushrooms.
    pub mushrooms: Register<Mushroom>,
    /// Woods.
    pub woods: Register<Wood>,
    /// Strains.
    pub strains: Register<Strain>,
    /// Methods.
    pub methods: Register<Listed<record::method::Method>>,
    /// Rows of evidence, in the order of files and rows.
    pub evidence: Vec<Evidence>,
    /// Where the farm lies.
    pub here: Here,
    /// Season windows that hold here.
    pub windows: Register<Window>,
    /// Cautions that hold here.
    pub cautions: Register<Caution>,
    /// Rules that hold here.
    pub rules: Register<Rule>,
    /// What holds in other places.
    pub elsewhere: Elsewhere,
    /// Sources.
    pub sources: Register<Listed<source::Source>>,
    /// Terms.
    pub terms: Register<Listed<record::term::Term>>,
    /// Mushrooms that are taken for those that are grown.
    pub look_alikes: Register<Listed<record::look_alike::LookAlike>>,
    /// Signposts of the finder.
    pub signposts: Register<Listed<record::signpost::Signpost>>,
    /// Stands.
    pub stands: Register<Listed<record::stand::Stand>>,
    /// Tagged trees, in the order of their tags.
    pub trees: Vec<Arc<Tree>>,
    /// Where each of them stands among the others, by its tag.
    pub spots: Arc<BTreeMap<String, Spot>>,
    /// Log lots.
    pub lots: Register<Lot>,
    /// Plans.
    pub plans: Register<Plan>,
    /// Batches.
    pub batches: Register<Batch>,
    /// Lines of the day book, in the order of their dates.
    pub diary: Vec<Arc<Diary>>,
    /// The lines of the day book that saw each trouble, in the order of their dates.
    pub seen: BTreeMap<String, Vec<Arc<Diary>>>,
    /// Harvests, in the order of their dates.
    pub harvests: Vec<Arc<Harvest>>,
    /// Sales, in the order of their dates.
    pub sales: Vec<Arc<Sale>>,
    /// Troubles.
    pub troubles: Register<Trouble>,
    /// Notes.
    pub notes: Register<Note>,
    /// Notes in the order of their dates.
    pub notes_by_date: Vec<Arc<Note>>,
    /// The notes about each record, in the order of their ids.
    pub notes_about: BTreeMap<Link, Vec<Arc<Note>>>,
    /// Handouts.
    pub handouts: Register<Handout>,
    /// Pictures by their paths inside the farm.
    pub pictures: BTreeMap<String, Arc<read::Picture>>,
    /// What people call each record that has a name.
    pub names: BTreeMap<Link, String>,
    /// What is asked about the records and not answered in them, in the order of files and lines.
    pub questions: Vec<Fault>,
}

/// What holds in other places than the farm's.
#[derive(Debug)]
pub struct Elsewhere {
    /// Season windows.
    pub windows: Register<Window>,
    /// Cautions.
    pub cautions: Register<Caution>,
    /// Rules.
    pub rules: Register<Rule>,
    /// All of these.
    pub links: Arc<BTreeSet<Link>>,
}

impl Elsewhere {
    fn of(windows: Register<Window>, cautions: Register<Caution>, rules: Register<Rule>) -> Self {
        let links = |kind, ids: Vec<&String>| ids.into_iter().map(move |id| Link::to(kind, id)).collect::<Vec<_>>();
        let links = [
            links(Kind::Window, windows.keys().collect()),
            links(Kind::Caution, cautions.keys().collect()),
            links(Kind::Rule, rules.keys().collect()),
        ];
        Self { links: Arc::new(links.into_iter().flatten().collect()), windows, cautions, rules }
    }
}

/// Where a tree stands among the others: its stand, and how many of that stand's come before it by their tags.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spot {
    /// Its stand; nothing where it stands in none.
    pub stand: Option<String>,
    /// How many of its stand come before it.
    pub place: usize,
}

/// The spots of trees by their tags.
fn spots(trees: &[Arc<Tree>]) -> BTreeMap<String, Spot> {
    let mut counts: BTreeMap<Option<String>, usize> = BTreeMap::new();
    let mut spot = |tree: &Arc<Tree>| {
        let stand = tree.stand.as_ref().map(|stand| stand.id.clone());
        let count = counts.entry(stand.clone()).or_default();
        *count += 1;
        (tree.tag().0.clone(), Spot { stand, place: *count - 1 })
    };
    trees.iter().map(&mut spot).collect()
}

impl Book {
    /// The short form of a source, as tables print it.
    pub fn short<'a>(&'a self, id: &'a Id<source::Source>) -> &'a str {
        self.sources.get(id.as_str()).map_or(id.as_str(), |source| source.record.short.as_str())
    }

    /// The tree with a tag.
    pub fn tree(&self, tag: &Tag) -> Option<&Arc<Tree>> {
        let place = self.trees.binary_search_by(|tree| tree.tag().cmp(tag)).ok()?;
        self.trees.get(place)
    }
}

/// Reads and links the built-in handbook and a farm's files.
///
/// # Errors
///
/// All faults of the records, in the order of files and lines, and after them what is asked about the rest.
///
/// ```
/// let book = hostwood::book::bind(hostwood::read::folder::demo()).expect("the demo farm is without fault");
/// assert!(book.woods.contains_key("red-oak"));
/// ```
pub fn bind(farm: Vec<Found>) -> Result<Book, Vec<Fault>> {
    bind_in(farm, None)
}

/// Lays a farm over the handbook in units other than the farm's own, where the call asks for them.
///
/// # Errors
///
/// As [`bind`].
pub fn bind_in(farm: Vec<Found>, units: Option<Units>) -> Result<Book, Vec<Fault>> {
    let handbook = read::sort::read(read::handbook::files());
    let farm = read::sort::read(farm);
    let mut faults = Vec::new();
    let book = bind_heaps(handbook, farm, units, &mut faults);
    match book {
        Some(book) if faults.is_empty() => Ok(book),
        book => {
            faults.extend(book.into_iter().flat_map(|book| book.questions));
            fault::sort(&mut faults);
            Err(faults)
        }
    }
}

fn bind_heaps(mut handbook: Heap, farm: Heap, units: Option<Units>, faults: &mut Vec<Fault>) -> Option<Book> {
    faults.extend(handbook.faults);
    faults.extend(farm.faults);
    let lost: Vec<Lost> = handbook.lost.into_iter().chain(farm.lost).collect();
    let pictures = farm.pictures;
    if !farm.entries.iter().any(|entry| entry.kind == Kind::Farm) && !faults.iter().any(is_about_farm) {
        faults.push(
            Fault::new("no-farm", "this folder has no `farm.yaml`")
                .instead("write one with `name:`, `place:` (latitude and longitude) and `season:`"),
        );
    }
    let units = units.unwrap_or_else(|| units_of(&farm.entries));
    if units == Units::Us {
        spelling::respell_all(&mut handbook.entries);
    }
    let pile = lay::lay(handbook.entries, farm.entries, faults);
    faults.extend(check::all(&pile, lost, &pictures));
    let is_whole = faults.is_empty();
    let mut undecoded = Vec::new();
    let pictures = pictures.into_iter().map(|picture| (picture.path.clone(), picture)).collect();
    let mut book = link_all(&pile, pictures, units, &mut undecoded);
    // A record that has a fault is not told again for not being decoded.
    if is_whole {
        faults.extend(undecoded);
    }
    if let Some(book) = &mut book {
        book.questions = question::open(book, &pile, is_whole);
    }
    book
}

/// The units that a farm's records ask for.
fn units_of(farm: &[read::Entry]) -> Units {
    let own = farm.iter().filter(|entry| entry.kind == Kind::Farm).find_map(|entry| entry.node.get("units"));
    own.and_then(|units| serde_json::from_value(units.json()).ok()).unwrap_or_default()
}

fn is_about_farm(fault: &Fault) -> bool {
    fault.place.as_ref().is_some_and(|place| place.file.name.starts_with("farm."))
}

/// Links a pile, without the records that cannot be decoded; each of these becomes a fault.
fn link_all(
    pile: &Pile,
    pictures: BTreeMap<String, Arc<read::Picture>>,
    units: Units,
    faults: &mut Vec<Fault>,
) -> Option<Book> {
    let mut decoder = Decoder { pile, faults, here: None };
    let regions = decoder.listed();
    let place = pile.farm().and_then(|farm| serde_json::from_value(farm.get("place")?.json()).ok());
    let south = place.as_ref().is_some_and(|place: &record::farm::Place| place.latitude < 0.0);
    let here = decoder.here.insert(Here::of(place.as_ref(), units, &regions)).clone();
    let sources = decoder.listed();
    let methods = decoder.listed();
    let woods = wood::link(decoder.records());
    let mushrooms = mushroom::link(decoder.records(), &methods);
    let strains = strain::link(decoder.records(), &mushrooms);
    let windows: Register<Window> =
        bound::link(decoder.records(), |window| (&window.woods, &window.mushrooms), &mushrooms, &woods);
    let cautions: Register<Caution> =
        bound::link(decoder.records(), |caution| (&caution.woods, &caution.mushrooms), &mushrooms, &woods);
    let rules: Register<Rule> =
        bound::link(decoder.records(), |rule| (&rule.woods, &rule.mushrooms), &mushrooms, &woods);
    let stands = decoder.listed();
    let trees = tree::link(decoder.records(), &woods, &stands);
    let lots = lot::link(decoder.records(), &woods, &trees);
    let batches = batch::link(decoder.records(), &strains, &woods, &lots, &trees, south);
    let notes = decoder.notes();
    let look = pile.farm().and_then(|farm| farm.get("look")).map(|node| node.place.clone());
    let mut farm = farm::link(decoder.records(), &mushrooms, &woods, &windows, look)?;
    farm.record.units = units;
    let kept = |id: &str| farm.no_cut.iter().any(|window| window.id == id);
    let (windows, windows_elsewhere) = bound::part(windows, &here, kept);
    let (cautions, cautions_elsewhere) = bound::part(cautions, &here, |_| false);
    let (rules, rules_elsewhere) = bound::part(rules, &here, |_| false);
    let diary = diary::link(decoder.records(), &batches);
    Some(Book {
        seen: seen(&diary),
        evidence: evidence::link(decoder.records(), &mushrooms, &woods, &sources),
        elsewhere: Elsewhere::of(windows_elsewhere, cautions_elsewhere, rules_elsewhere),
        terms: decoder.listed(),
        look_alikes: decoder.listed(),
        signposts: decoder.listed(),
        spots: Arc::new(spots(&trees)),
        trees,
        plans: plan::link(decoder.records(), &strains),
        diary,
        harvests: harvest::link(decoder.records(), &batches),
        sales: sale::link(decoder.records(), &batches, &strains),
        questions: Vec::new(),
        troubles: trouble::link(decoder.records(), &mushrooms),
        names: names(pile),
        notes_by_date: by_date(&notes),
        notes_about: about(&notes),
        handouts: handout::link(decoder.records(), &mushrooms, &woods, &farm, &pictures),
        pictures,
        farm,
        mushrooms,
        woods,
        strains,
        methods,
        here,
        windows,
        cautions,
        rules,
        sources,
        stands,
        lots,
        batches,
        notes,
    })
}

fn names(pile: &Pile) -> BTreeMap<Link, String> {
    let of = |kind| pile.of(kind).map(move |(id, laid)| (Link { kind, id: id.to_owned() }, laid));
    let named = Kind::ALL.into_iter().flat_map(of);
    named.filter_map(|(link, laid)| Some((link, check::names_of(&laid.node).next()?.to_owned()))).collect()
}

fn by_date(notes: &Register<Note>) -> Vec<Arc<Note>> {
    let mut notes: Vec<Arc<Note>> = notes.values().cloned().collect();
    notes.sort_by_key(|note| note.record.date);
    notes
}

fn seen(diary: &[Arc<Diary>]) -> BTreeMap<String, Vec<Arc<Diary>>> {
    let mut seen: BTreeMap<String, Vec<Arc<Diary>>> = BTreeMap::new();
    for line in diary {
        if let Some(trouble) = &line.record.trouble {
            seen.entry(trouble.as_str().to_owned()).or_default().push(Arc::clone(line));
        }
    }
    seen
}

fn about(notes: &Register<Note>) -> BTreeMap<Link, Vec<Arc<Note>>> {
    let mut about: BTreeMap<Link, Vec<Arc<Note>>> = BTreeMap::new();
    for note in notes.values() {
        for link in &note.record.about {
            about.entry(link.clone()).or_default().push(Arc::clone(note));
        }
    }
    about
}

/// Turns laid trees into records.
struct Decoder<'a> {
    pile: &'a Pile,
    faults: &'a mut Vec<Fault>,
    /// Where the farm lies, by which words are turned, once the regions have been decoded.
    here: Option<Here>,
}

impl Decoder<'_> {
    fn decode<T: Record>(&mut self, laid: &Laid) -> Option<T> {
        let mut record = laid.node.json();
        if let Some(here) = &self.here {
            let places: Vec<&str> = laid.node.items("holds_in").iter().filter_map(read::Node::text).collect();
            here.of_record(&places).as_ref().unwrap_or(here).turn(&mut record);
        }
        match serde_json::from_value(record) {
            Ok(record) => Some(record),
            Err(error) => {
                self.faults.push(Fault::new("wrong-value", error.to_string()).at(laid.node.place.clone()));
                None
            }
        }
    }

    fn records<T: Record>(&mut self) -> Vec<Listed<T>> {
        let pile = self.pile;
        let one = |(id, laid): (&str, &Laid)| {
            Some(Listed { id: id.to_owned(), origin: laid.origin.clone(), record: self.decode(laid)? })
        };
        pile.of(T::KIND).filter_map(one).collect()
    }

    fn listed<T: Record>(&mut self) -> Register<Listed<T>> {
        twins(self.records(), Some)
    }

    fn notes(&mut self) -> Register<Note> {
        twins(self.records(), |Listed { id, origin, record }| {
            let text = self.pile.get(Kind::Note, &id)?.text.clone()?;
            Some(Note { id, origin, record, text })
        })
    }
}

/// The twins of records by their ids, without those that name what is not there.
fn twins<T, U>(records: Vec<Listed<T>>, twin: impl Fn(Listed<T>) -> Option<U>) -> Register<U> {
    records.into_iter().filter_map(|listed| Some((listed.id.clone(), Arc::new(twin(listed)?)))).collect()
}

/// Links records that may be part of one another, the widest first.
fn link_groups<T, U>(
    records: Vec<Listed<T>>,
    part_of: impl Fn(&T) -> Option<&str>,
    mut twin: impl FnMut(Listed<T>, Option<Arc<U>>) -> U,
) -> Register<U> {
    let mut linked = Register::new();
    let mut waiting = records;
    while !waiting.is_empty() {
        let before = waiting.len();
        for listed in std::mem::take(&mut waiting) {
            match part_of(&listed.record) {
                Some(above) if !linked.contains_key(above) => waiting.push(listed),
                above => {
                    let above = above.and_then(|above| linked.get(above)).cloned();
                    linked.insert(listed.id.clone(), Arc::new(twin(listed, above)));
                }
            }
        }
        if waiting.len() == before {
            break;
        }
    }
    linked
}

/// The twin that an id names.
fn one<T, U>(id: &Id<T>, register: &Register<U>) -> Option<Arc<U>> {
    register.get(id.as_str()).cloned()
}

/// The twins that a list of ids names.
fn all<T, U>(ids: &[Id<T>], register: &Register<U>) -> Vec<Arc<U>> {
    ids.iter().filter_map(|id| one(id, register)).collect()
}
