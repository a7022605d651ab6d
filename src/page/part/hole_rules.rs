//! Holes in one log by every pattern and rule that was published.

use serde::Serialize;

use super::{cite::Cite, range};
use crate::{
    page::Context,
    quantity::Length,
    reckon::{findings::logs, holes, weight},
    record::{Id, said::Mark},
};

/// What other rules give for the same log.
#[derive(Debug, Serialize)]
pub struct HoleRule {
    rule: String,
    cite: Option<Cite>,
    figures: Vec<String>,
}

/// Holes in one log by every other pattern and rule that was published.
#[must_use]
pub fn all(context: &Context<'_>) -> Vec<HoleRule> {
    let units = context.units();
    let farm = &context.book.farm.record;
    let diameters = logs::diameters(context.book, units);
    let length = &farm.log.length;
    let whole = |number: f64| number.round().to_string();
    let mut rows = Vec::new();
    if let Some(method) = context.book.methods.get(logs::DRILLED) {
        for pattern in &method.record.patterns {
            let Some(between) = &pattern.between else { continue };
            rows.push(HoleRule {
                rule: format!(
                    "{}: {} along, {} between rows",
                    pattern.name,
                    pattern.along.show(units),
                    between.show(units)
                ),
                cite: Some(Cite::of(&pattern.source, pattern.mark, context)),
                figures: diameters
                    .iter()
                    .map(|diameter| whole(holes::by_area(diameter, length, &pattern.along, between)))
                    .collect(),
            });
        }
    }
    let six_inches = Length::of_inches(6.0);
    rows.push(HoleRule {
        rule: format!("A row for each inch of diameter, {} along", six_inches.show(units)),
        cite: Some(rule("common-practice", Mark::Memory, context)),
        figures: diameters.iter().map(|diameter| whole(holes::by_rows(diameter, length, &six_inches))).collect(),
    });
    if let Some(wood) = context.findings.woods().iter().find(|wood| weight::density(&logs::green(&wood.record)).is_ok())
    {
        let green = logs::green(&wood.record);
        let pounds = |diameter: &Length| weight::log(&green, diameter, length).map_or(0.0, |mass| mass.pounds());
        rows.push(HoleRule {
            rule: format!("One to two holes for each pound of a green log, here of {}", wood.name()),
            cite: Some(rule("sab-den", Mark::Read, context)),
            figures: diameters
                .iter()
                .map(|diameter| {
                    let [one, two] = [1.0, 2.0].map(|factor| whole(holes::by_weight(pounds(diameter), factor)));
                    range(&one, &two)
                })
                .collect(),
        });
    }
    rows.push(HoleRule {
        rule: "At least three to four holes for each centimetre of top diameter".to_owned(),
        cite: Some(rule("hro09", Mark::Read, context)),
        figures: diameters
            .iter()
            .map(|diameter| {
                let (low, high) = holes::by_diameter(diameter);
                range(&whole(low), &whole(high))
            })
            .collect(),
    });
    rows
}

fn rule(id: &str, mark: Mark, context: &Context<'_>) -> Cite {
    Cite::of(&Id::new(id), mark, context)
}
