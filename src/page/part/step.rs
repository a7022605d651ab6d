//! A step of a method, with the cautions that hold at it.

use serde::Serialize;

use super::caution::Caution;
use super::cite::Cite;
use super::{Anchor, caution};
use crate::book::Caution as Found;
use crate::page::{Context, Page};
use crate::record::method;

/// A step as pages show it.
#[derive(Debug, Serialize)]
pub struct Step {
    /// The step in a few words.
    pub title: String,
    /// What to do (Markdown).
    pub says: String,
    /// What to have at hand.
    pub tools: String,
    /// How many people it takes.
    pub hands: Option<String>,
    /// How one sees that it is done.
    pub done_when: String,
    /// What to measure, parted at its blanks.
    pub measure: Vec<String>,
    /// Who says so.
    pub cites: Vec<Cite>,
    /// The cautions that hold here for the first time.
    pub cautions: Vec<Caution>,
    /// Where all cautions of its task stand.
    pub task: Option<Anchor>,
}

/// The steps of a method: each caution stands at the step where it first holds.
pub fn all(steps: &[method::Step], context: &Context<'_>) -> Vec<Step> {
    all_for(steps, &caution::is_general, context)
}

/// The same with the cautions that hold for some reader.
pub fn all_for(steps: &[method::Step], holds: &dyn Fn(&Found) -> bool, context: &Context<'_>) -> Vec<Step> {
    let mut shown: Vec<String> = Vec::new();
    steps.iter().map(|step| one(step, &mut shown, holds, context)).collect()
}

/// The steps of a method of the book, by its id; none where there is no such method.
pub fn of_method(id: &str, context: &Context<'_>) -> Vec<Step> {
    context.book.methods.get(id).map(|method| all(&method.record.steps, context)).unwrap_or_default()
}

/// How many grave cautions stand at some steps.
pub fn stops(steps: &[Step]) -> usize {
    steps.iter().flat_map(|step| &step.cautions).filter(|caution| caution.class == "stop").count()
}

/// A step with the cautions of its task, each where it first holds; those of one wood or mushroom stand on its page.
fn one(step: &method::Step, shown: &mut Vec<String>, holds: &dyn Fn(&Found) -> bool, context: &Context<'_>) -> Step {
    let all = step.task.map(|task| caution::for_tasks(&[task], holds, context)).unwrap_or_default();
    let cautions: Vec<Caution> = all.into_iter().filter(|caution| !shown.contains(&caution.id)).collect();
    shown.extend(cautions.iter().map(|caution| caution.id.clone()));
    Step {
        title: step.title.clone(),
        says: step.says.clone(),
        tools: step.tools.join(", "),
        hands: step.hands.clone(),
        done_when: step.done_when.clone(),
        measure: step.measure.iter().flat_map(|text| blanks(text)).collect(),
        cites: Cite::all(&step.sources, step.mark, context),
        cautions,
        task: step.task.map(|task| Anchor::to(context.route.at(&Page::Safety, task.id()), task.words(), context)),
    }
}

/// A text parted at its blanks, which are drawn as lines to write on.
fn blanks(text: &str) -> Vec<String> {
    text.split("____").map(|part| part.trim_matches('_').to_owned()).collect()
}
