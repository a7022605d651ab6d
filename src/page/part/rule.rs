//! A rule of a place, as pages show it, and what stands where the handbook knows none.

use std::collections::BTreeSet;

use serde::Serialize;

use super::caution::Subject as Told;
use super::cite::Cite;
use super::{Anchor, capital, holding};
use crate::book::{Mushroom, Register, Rule as Found, Wood};
use crate::page::Context;
use crate::quantity::Code;
use crate::record::caution::Task;
use crate::record::rule::Subject;

/// A rule as pages show it.
#[derive(Debug, Clone, Serialize)]
pub struct Rule {
    /// Its id.
    pub id: String,
    /// Its name, at the place where it stands whole.
    pub name: Anchor,
    /// The rule in plain words (Markdown).
    pub says: String,
    /// The places whose rule it is, on the page of other places.
    pub whose: Option<String>,
    /// What binds it, where and as of when.
    pub standing: Option<String>,
    /// Whom a reader asks what holds today.
    pub ask: Option<String>,
    /// The woods it speaks of.
    pub woods: Vec<Anchor>,
    /// The mushrooms it speaks of.
    pub mushrooms: Vec<Anchor>,
    /// What a reader should know about it.
    pub note: Option<String>,
    /// Who says so.
    pub cite: Cite,
}

impl Rule {
    /// A rule seen from a page.
    pub fn of(rule: &Found, context: &Context<'_>) -> Self {
        let record = &rule.record;
        Self {
            id: rule.id.clone(),
            name: Anchor::rule(rule, context),
            says: record.says.clone(),
            whose: holding::places(&record.holds, context)
                .filter(|_| !context.book.rules.contains_key(&rule.id))
                .map(|places| capital(&places)),
            standing: holding::standing(&record.holds, record.mark, context),
            ask: holding::office(&record.holds, context).filter(|_| context.book.rules.contains_key(&rule.id)),
            woods: rule.woods.iter().map(|wood| Anchor::wood(wood, context)).collect(),
            mushrooms: rule.mushrooms.iter().map(|mushroom| Anchor::mushroom(mushroom, context)).collect(),
            note: record.note.clone(),
            cite: Cite::by(record, context),
        }
    }
}

/// Rules about one subject.
#[derive(Debug, Serialize)]
pub struct BySubject {
    id: &'static str,
    title: &'static str,
    rules: Vec<Rule>,
}

/// Rules by what they are about; no subject without rules.
pub fn by_subject(rules: &Register<Found>, context: &Context<'_>) -> Vec<BySubject> {
    let about = |subject: Subject| {
        let of = rules.values().filter(move |rule| rule.record.about == subject);
        let rules = of.map(|rule| Rule::of(rule, context)).collect();
        BySubject { id: subject.id(), title: subject.words(), rules }
    };
    Subject::ALL.into_iter().map(about).filter(|of| !of.rules.is_empty()).collect()
}

/// The rules that hold here and of which something is true.
pub fn some(is: impl Fn(&Found) -> bool, context: &Context<'_>) -> Vec<Rule> {
    let found = context.book.rules.values().filter(|rule| is(rule));
    found.map(|rule| Rule::of(rule, context)).collect()
}

/// The rules that speak of one wood in particular, by name or through its group.
pub fn of_wood(wood: &Wood, context: &Context<'_>) -> Vec<Rule> {
    some(|rule| !rule.woods.is_empty() && rule.speaks_of_wood(wood), context)
}

/// The rules that speak of one mushroom in particular, by name or through its group.
pub fn of_mushroom(mushroom: &Mushroom, context: &Context<'_>) -> Vec<Rule> {
    some(|rule| !rule.mushrooms.is_empty() && rule.speaks_of_mushroom(mushroom), context)
}

/// The rules that are decided at a task: those of any wood and mushroom, and those of what the page tells of.
pub fn of_task(task: Task, subject: &Told<'_>, context: &Context<'_>) -> Vec<Rule> {
    some(|rule| rule.record.tasks.contains(&task) && subject.is_met_by(rule), context)
}

/// What stands where the handbook knows no rule about a subject here: whom to ask, and what.
pub fn unknown(subject: Subject, context: &Context<'_>) -> Option<&'static str> {
    let known = context.book.rules.values().any(|rule| {
        let of = rule.record.about;
        let felling = |about| matches!(about, Subject::Felling | Subject::ProtectedTime | Subject::Wildlife);
        !rule.record.holds.holds_in.is_empty() && (of == subject || felling(of) && felling(subject))
    });
    match subject {
        _ if known => None,
        Subject::Felling => Some(
            "Before you fell: ask your forestry office and your council whether you need leave, and when birds nest and \
             bats roost.",
        ),
        Subject::MovingWood => {
            Some("Before logs leave your land: ask your plant health service. Keep wood with bark near where it grew.")
        }
        Subject::Spawn => Some(
            "Before you order spawn from abroad: ask your plant health service which kinds may come in and be grown.",
        ),
        Subject::Food => Some("Before the first sale: ask your food authority what holds for fresh mushrooms."),
        Subject::ProtectedTime | Subject::Wildlife | Subject::Fungi | Subject::Trees => None,
    }
}

/// What is decided at a task, where rules decide it.
pub const fn subject_of(task: Task) -> Option<Subject> {
    match task {
        Task::Survey | Task::Felling => Some(Subject::Felling),
        Task::Hauling => Some(Subject::MovingWood),
        Task::Selling => Some(Subject::Food),
        _ => None,
    }
}

/// Every line that stands on a page of what holds here for what is not known of the place, the widest first.
pub fn unknowns(context: &Context<'_>) -> Vec<String> {
    let here = &context.book.here;
    let mut lines = Vec::new();
    if here.name().is_none() {
        lines.push(unplaced().to_owned());
    }
    let of_place = |rule: &Found| !rule.record.holds.holds_in.is_empty();
    if let Some(name) = here.name().filter(|_| !context.book.rules.values().any(|rule| of_place(rule))) {
        lines.push(format!("This handbook knows no rules for {name}. That does not mean that there are none."));
    }
    let subjects = [Subject::Felling, Subject::MovingWood, Subject::Spawn];
    lines.extend(subjects.into_iter().filter_map(|subject| unknown(subject, context)).map(str::to_owned));
    if here.emergency().is_none() && here.poison().is_none() {
        lines.push(
            "Emergency number: ____. Poison advice: ____. This guide does not know them: write them here today."
                .to_owned(),
        );
    }
    lines.extend(unknown(Subject::Food, context).map(str::to_owned));
    lines.extend(look_alikes(context).map(str::to_owned));
    lines.extend(parts(context).map(str::to_owned));
    lines
}

/// That parts of the country have rules of their own, where the farm has named the country alone.
fn parts(context: &Context<'_>) -> Option<&'static str> {
    let country = context.book.here.code.as_ref()?;
    let elsewhere = context.book.elsewhere.rules.values().flat_map(|rule| &rule.record.holds.holds_in);
    let mut parts = elsewhere.filter_map(|region| Code::read(region.as_str()).ok());
    parts
        .any(|part| part.lies_in(country))
        .then_some("Some states or provinces have rules of their own; write yours into `where`.")
}

/// What stands where the farm has not said where it lies.
pub const fn unplaced() -> &'static str {
    "You have not said where this farm is. Write its country, better its state or province, as `where` under `place` in \
     farm.yaml, such as `where: US-VT`."
}

/// That look-alikes of the place may be missing, where the handbook's are those of other places.
pub fn look_alikes(context: &Context<'_>) -> Option<&'static str> {
    (!context.book.here.knows_look_alikes())
        .then_some("Look-alikes differ from land to land. The table here is northern: ask a local expert for yours.")
}

/// Whom a reader asks what holds today, in one line; each once.
pub fn ask<'a>(rules: impl IntoIterator<Item = &'a Rule>) -> Option<String> {
    let offices: BTreeSet<String> = rules.into_iter().filter_map(|rule| rule.ask.clone()).collect();
    let offices: Vec<String> = offices.into_iter().collect();
    (!offices.is_empty()).then(|| format!("Rules differ and change: ask {}.", super::and(&offices)))
}
