//! The built-in theme, with the farm's own files standing in one by one.

use std::collections::BTreeMap;
use std::sync::Arc;

use include_dir::{Dir, include_dir};
use tera::{Context, Filter, Kwargs, State, Tera, TeraResult, Value};

use super::markdown::Setter;
use super::{Files, Stopped, highlight, paper, policy};
use crate::book::Book;
use crate::error::Error;
use crate::fault::{Fault, File, Place, suggest};
use crate::page::route::{Edition, Route};
use crate::page::{Page, figure};
use crate::quantity::{capital, count};
use crate::read::Found;
use crate::reckon::Findings;
use crate::record::handout::Paper;

static THEME: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/themes/endgrain");

/// The script of the search index.
const SEARCH: &str = "search.js";
/// Where a page has what its drawings share, until it is known what they are.
const DEFS: &str = "<!-- defs -->";

/// A theme, ready to draw.
pub struct Theme {
    tera: Tera,
    files: BTreeMap<String, ThemeFile>,
    paper: Paper,
    defs: [String; 5],
}

/// A file of the theme.
struct ThemeFile {
    text: String,
    own: Option<Arc<File>>,
}

impl Theme {
    /// Loads the built-in theme and the files of the farm's look that stand in for its own.
    ///
    /// # Errors
    ///
    /// [`Stopped::Faults`] where a file of the look stands in for nothing, is not text, or is a broken template.
    pub fn load(book: &Arc<Book>, findings: &Arc<Findings>, paper: Paper, look: Vec<Found>) -> Result<Self, Stopped> {
        let mut files: BTreeMap<String, ThemeFile> = built_in();
        stand_in(&mut files, look)?;
        let mut tera = Tera::new();
        let setter = Setter { book: Arc::clone(book), findings: Arc::clone(findings) };
        let pocket = Page::Pocket.edition(book, findings);
        tera.register_filter("md", Md { setter: setter.clone(), pocket: pocket.clone(), inline: false });
        tera.register_filter("line", Md { setter, pocket, inline: true });
        tera.register_filter("record", Record);
        tera.register_filter("counted", Counted);
        tera.register_filter("capital", Capital);
        let templates = files.iter().filter(|(name, _)| name.ends_with(".html"));
        let added = tera.add_raw_templates(templates.map(|(name, file)| (name.as_str(), file.text.as_str())));
        let theme = Self { tera, files, paper, defs: figure::defs(findings.first_month()) };
        match added {
            Ok(()) => Ok(theme),
            Err(error) => Err(theme.broken(&error)),
        }
    }

    /// Draws a page.
    ///
    /// # Errors
    ///
    /// [`Stopped`] where the template asks for something that its page does not have.
    pub fn draw(&self, page: &Page, book: &Book, findings: &Findings) -> Result<String, Stopped> {
        let view = page.view(book, findings);
        let mut context = Context::from_serialize(&view)
            .map_err(|error| Error::because("cannot hand a view to its template", error))?;
        context.insert("defs", DEFS);
        context.insert("policy", &policy::of_page());
        if let Page::Handout(id) = page {
            self.furnish(&mut context, book.handouts.get(id).and_then(|handout| handout.record.paper));
        }
        let html = self.tera.render(&page.template(), &context).map_err(|error| self.broken(&error))?;
        Ok(html.replacen(DEFS, &figure::used(&self.defs, &html), 1))
    }

    /// Puts styles and script into a handout, which is one file; a broad screen shows it as paper will.
    fn furnish(&self, context: &mut Context, paper: Option<Paper>) {
        let text = |name: &str| self.files.get(name).map_or_else(String::new, |file| lean(name, &file.text));
        let sheet = paper::handout(paper.unwrap_or(self.paper));
        let tokens = text("tokens.css").replace("@media print", &format!("@media {}", paper::AS_PAPER));
        let (styles, print_styles) = (tokens + &text("screen.css"), text("print.css"));
        let (own_styles, script) = (text("handout.css") + &sheet.rule, text("handout.js"));
        context.insert("policy", &policy::of_handout(&[&styles, &print_styles, &own_styles], &script));
        context.insert("styles", &styles);
        context.insert("as_paper", paper::AS_PAPER);
        context.insert("print_styles", &print_styles);
        context.insert("own_styles", &own_styles);
        context.insert("script", &script);
        context.insert("paper", &sheet);
    }

    /// The script that looks words up in the search index, which stands before it in one file.
    pub fn search(&self) -> String {
        self.files.get(SEARCH).map_or_else(String::new, |file| lean(SEARCH, &file.text))
    }

    /// The files that pages load: styles and scripts. A handout has its own inside it, and the search index its script.
    pub fn assets(&self) -> Files {
        let inside = |name: &str| name.starts_with("handout.") || name == SEARCH;
        let loaded = |name: &str| (name.ends_with(".css") || name.ends_with(".js")) && !inside(name);
        let assets = self.files.iter().filter(|(name, _)| loaded(name));
        let text = |(name, file): (&String, &ThemeFile)| {
            if file.own.is_some() { file.text.clone() } else { lean(name, &file.text) }
        };
        assets.map(|(name, file)| (format!("look/{name}"), text((name, file)).into_bytes())).collect()
    }

    /// A template that cannot be drawn: a fault of the farm's look where one of its files is named, else our own failure.
    fn broken(&self, error: &tera::Error) -> Stopped {
        let message = error.to_string();
        let own = || self.files.iter().filter_map(|(name, file)| Some((name, file.own.as_ref()?)));
        let named = own().find(|(name, _)| message.contains(name.as_str()));
        let Some((_, file)) = named.or_else(|| own().next()) else {
            return Stopped::Error(Error::new(format!("cannot draw a page: {message}")));
        };
        let first = message.lines().next().unwrap_or(&message);
        let (wrong, instead) = match named {
            Some(_) => ("this template", "compare it with the built-in template of the same name"),
            None => ("with this look a page", "compare the files of the look with the built-in ones of the same names"),
        };
        let (line, column) = named.and_then(|_| position(&message)).unwrap_or((1, 1));
        let fault = Fault::new("look-broken", format!("{wrong} cannot be drawn: {first}")).instead(instead);
        Stopped::Faults(vec![fault.at(Place { file: Arc::clone(file), line, column })])
    }
}

/// A style sheet or script of the built-in theme without indents, without lines that are comments alone, and in styles without
/// spaces that only readers need, since every page loads it on a phone.
fn lean(name: &str, text: &str) -> String {
    let comment = |line: &str| line.starts_with("//") || (line.starts_with("/*") && line.ends_with("*/"));
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty() && !comment(line));
    let is_style = name.ends_with(".css");
    let told = |line: &str| if is_style { tight(line) } else { line.to_owned() };
    lines.map(|line| told(line) + "\n").collect()
}

/// A line of a style sheet without the spaces that only readers need; one with a text in it as it is.
fn tight(line: &str) -> String {
    const TIGHT: [(&str, &str); 6] = [(": ", ":"), ("; ", ";"), (" { ", "{"), (" {", "{"), (", ", ","), (";}", "}")];
    if line.contains('"') {
        return line.to_owned();
    }
    TIGHT.iter().fold(line.to_owned(), |line, (wide, narrow)| line.replace(wide, narrow))
}

/// The line and the column that a template engine's message names.
fn position(message: &str) -> Option<(usize, usize)> {
    let (_, rest) = message.split_once(".html:")?;
    let mut numbers = rest.split(|c: char| !c.is_ascii_digit());
    Some((numbers.next()?.parse().ok()?, numbers.next()?.parse().ok()?))
}

fn built_in() -> BTreeMap<String, ThemeFile> {
    let files =
        THEME.files().filter_map(|file| Some((file.path().to_str()?.to_owned(), file.contents_utf8()?.to_owned())));
    files.map(|(name, text)| (name, ThemeFile { text, own: None })).collect()
}

fn stand_in(files: &mut BTreeMap<String, ThemeFile>, look: Vec<Found>) -> Result<(), Stopped> {
    let mut faults = Vec::new();
    for Found { path, bytes, .. } in look {
        let name = path.rsplit('/').next().unwrap_or(&path).to_owned();
        let named = |text: String| Arc::new(File::new(path.clone(), text, false));
        if !files.contains_key(&name) {
            faults.push(stranger(&named(String::new()), &name, files.keys().map(String::as_str)));
            continue;
        }
        let text = bytes.map_err(|why| why.fault(named(String::new()))).and_then(|bytes| {
            String::from_utf8(bytes).map_err(|error| {
                let file = named(String::from_utf8_lossy(error.as_bytes()).into_owned());
                let fault = Fault::new("not-utf-8", "this file of the look is not UTF-8");
                fault.instead("save it as UTF-8 in the editor").at(Place::start(file))
            })
        });
        match text {
            Ok(text) => {
                files.insert(name, ThemeFile { text: text.clone(), own: Some(named(text)) });
            }
            Err(fault) => faults.push(fault),
        }
    }
    if faults.is_empty() { Ok(()) } else { Err(Stopped::Faults(faults)) }
}

fn stranger<'a>(file: &Arc<File>, name: &str, known: impl Iterator<Item = &'a str> + Clone) -> Fault {
    let fault = Fault::new("look-stranger", format!("`{name}` stands in for no file of the theme"));
    let fault = match suggest::closest(name, known.clone()) {
        Some(meant) => fault.instead(format!("call it `{meant}`, if that is meant")),
        None => fault.instead(format!("the theme's files are {}", suggest::either(known))),
    };
    fault.at(Place::start(Arc::clone(file)))
}

/// The filter that sets Markdown; the page's own root and the edition that it serves lead its links.
struct Md {
    setter: Setter,
    pocket: Edition,
    inline: bool,
}

impl Filter<&str, TeraResult<String>> for Md {
    fn call(&self, markdown: &str, kwargs: Kwargs, state: &State<'_>) -> TeraResult<String> {
        let root = state.get::<String>("root")?.unwrap_or_default();
        let file = kwargs.get::<String>("file")?.unwrap_or_default();
        let edition = match state.get::<String>("serves")?.as_deref() {
            Some("pocket") => self.pocket.clone(),
            Some("handout") => Edition::Handout,
            _ => Edition::Guide,
        };
        let route = Route::under(root).serving(edition).within(&self.setter.book);
        Ok(if self.inline {
            self.setter.inline(markdown, &route, &file)
        } else {
            self.setter.html(markdown, &route, &file)
        })
    }

    fn is_safe(&self) -> bool {
        true
    }
}

/// The filter that sets a noun beside its number.
struct Counted;

impl Filter<u64, TeraResult<String>> for Counted {
    fn call(&self, number: u64, kwargs: Kwargs, _: &State<'_>) -> TeraResult<String> {
        let noun = |name: &'static str| kwargs.must_get::<String>(name);
        Ok(count(number, &noun("one")?, &noun("many")?))
    }
}

/// The filter that begins with a capital and leaves the other letters as they are, names of trees among them.
struct Capital;

impl Filter<&str, String> for Capital {
    fn call(&self, text: &str, _: Kwargs, _: &State<'_>) -> String {
        capital(text)
    }
}

/// The filter that inks a record.
struct Record;

impl Filter<&str, Value> for Record {
    fn call(&self, text: &str, _: Kwargs, _: &State<'_>) -> Value {
        Value::safe_string(&highlight::html(text))
    }

    fn is_safe(&self) -> bool {
        true
    }
}
