//! The sheets to take out of the door, each with what it answers.

use crate::page::Page;

/// Every sheet: its page, its title, and what stands on it.
#[must_use]
pub fn all() -> [(Page, &'static str, &'static str); 17] {
    [
        (
            Page::Planning,
            "From wishes to woods",
            "which wood goes to which strain, how many logs a wish needs, what a log costs",
        ),
        (Page::Felling, "Felling", "which trees come down, stand by stand, in walking order"),
        (Page::Bucking, "Cutting to length", "the logs of each tree, what they weigh, and what one person may lift"),
        (Page::Supply, "What to order", "the cheapest packages of spawn and wax, by when to order and to use them"),
        (Page::Inoculation, "The day of inoculation", "tools, hands, hours, holes, spawn and wax, strain by strain"),
        (Page::LogTags, "Log tags", "a label for each batch, to print and cut"),
        (Page::Batches, "Batches", "where each stands in its life, what it should give and what it gave"),
        (Page::SoakRota, "The soak rota", "which logs go into the tank on which day"),
        (Page::Siting, "The yard", "where it lies, and which stack is for which stage"),
        (Page::Moisture, "How wet the logs are", "sample logs and slices, and when a log is too light"),
        (Page::Selling, "Picking and selling", "when each mushroom is ripe, how to cool, pack and label it"),
        (Page::Harvests, "Harvests", "what was picked, beside what sources give"),
        (Page::Troubles, "Trouble", "what is seen, what may be behind it, what to do"),
        (Page::Retiring, "Retiring", "when a log is spent, and where it may go"),
        (Page::Methods, "Methods, step by step", "from the marked tree to the soaked log"),
        (Page::Safety, "Safety by task", "read the cautions of the day's task aloud before you start"),
        (Page::Pocket, "The pocket edition", "the whole guide on small pages, to print and bind"),
    ]
}
