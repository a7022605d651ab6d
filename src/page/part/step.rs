//! A step of a method, with the cautions that hold at it.

use serde::Serialize;

use super::Anchor;
use super::caution::{Along, Cautions};
use super::cite::Cite;
use crate::page::{Context, Page};
use crate::record::caution::Task;
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
    /// The cautions of its task, where it is the first step that has it.
    pub cautions: Cautions,
    /// Where all cautions of its task stand.
    pub task: Option<Anchor>,
}

/// The tasks of some steps, in their order.
pub fn tasks(steps: &[method::Step]) -> impl Iterator<Item = Task> {
    steps.iter().filter_map(|step| step.task)
}

/// Steps, the cautions of each task at the first step that has it.
pub fn all(steps: &[method::Step], along: &mut Along, context: &Context<'_>) -> Vec<Step> {
    steps.iter().map(|step| one(step, along, context)).collect()
}

/// The steps of a method of the book, by its id; none where there is no such method.
pub fn of_method<'a>(id: &str, context: &Context<'a>) -> &'a [method::Step] {
    context.book.methods.get(id).map_or(&[], |method| &method.record.steps)
}

fn one(step: &method::Step, along: &mut Along, context: &Context<'_>) -> Step {
    Step {
        title: step.title.clone(),
        says: step.says.clone(),
        tools: step.tools.join(", "),
        hands: step.hands.clone(),
        done_when: step.done_when.clone(),
        measure: step.measure.iter().flat_map(|text| blanks(text)).collect(),
        cites: Cite::all(&step.sources, step.mark, context),
        cautions: step.task.map(|task| along.take(task)).unwrap_or_default(),
        task: step.task.map(|task| Anchor::to(context.route.at(&Page::Safety, task.id()), task.words(), context)),
    }
}

/// A text parted at its blanks, which are drawn as lines to write on.
fn blanks(text: &str) -> Vec<String> {
    text.split("____").map(|part| part.trim_matches('_').to_owned()).collect()
}
