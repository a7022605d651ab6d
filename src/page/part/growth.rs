//! How many logs a stand gives for good, in words.

use super::Figure;
use super::cite::Cite;
use crate::page::Context;
use crate::quantity::measure::rounded;
use crate::quantity::{BasalArea, Length, count};
use crate::reckon::findings::GrowthFinding;
use crate::reckon::findings::growth::{By, Last};
use serde::Serialize;

/// What a stand grows, in words.
#[derive(Debug, Serialize)]
pub struct Growth {
    /// The logs that it gives each year for good, or why that cannot be told.
    logs: Figure,
    /// What it gains, and how many stems reach log size.
    grows: Option<String>,
    /// By what that was told.
    by: Option<String>,
    cite: Option<Cite>,
    /// When the last tree of each wood and size falls.
    lasts: Option<String>,
}

impl Growth {
    /// The words of a finding.
    pub fn of(found: &GrowthFinding, context: &Context<'_>) -> Self {
        let units = context.units();
        let logs = match &found.logs {
            Ok(ends) => Figure::worked(format!("{} logs a year", whole(*ends)), &found.place, context),
            Err(gap) => Figure::gap(gap.to_string()),
        };
        let gains = found.gains.as_ref().ok().map(|ends| {
            let [least, most] = ends.map(|end| BasalArea::of_square_feet_an_acre(end.max(0.0)).show(units));
            if least == most { least } else { format!("{least} to {most}") }
        });
        let reach = found.into.as_ref().ok().map(|ends| {
            let (stems, reach) = if whole(*ends) == "1" { ("stem", "reaches") } else { ("stems", "reach") };
            format!("; {} {stems} a year {reach} {}, thick enough for a log", whole(*ends), found.limit.show(units))
        });
        let (by, cite) = match &found.by {
            Ok(By::Counts(summers)) => {
                (Some(format!("two counts, {} apart", count(*summers, "summer", "summers"))), None)
            }
            Ok(By::Rate(row, without)) => {
                let without = match without.as_slice() {
                    [] => String::new(),
                    woods => format!("; nothing is published for {}, taken to grow as the others", super::and(woods)),
                };
                let by = format!("a published rate, on poor and on good ground{without}");
                (Some(by), Some(Cite::by(row, context)))
            }
            Err(_) => (None, None),
        };
        Self {
            logs,
            grows: gains.map(|gains| format!("It gains {gains} a year{}", reach.unwrap_or_default())),
            by,
            cite,
            lasts: lasts(&found.lasts, context),
        }
    }
}

/// Two ends in whole numbers, once where they are one.
pub fn whole(ends: [f64; 2]) -> String {
    let [least, most] = ends.map(|end| rounded(end.max(0.0), 0));
    if least == most { least } else { format!("{least} to {most}") }
}

/// When the last trees fall: "at this pace the last red oak of 4 in to 7 in falls between the winters of 2032 and 2036".
fn lasts(lasts: &[Last], context: &Context<'_>) -> Option<String> {
    let ends: Vec<String> = lasts.iter().map(|last| end(last, context)).collect();
    match ends.as_slice() {
        [] => None,
        [one] => Some(format!("At this pace the last {one}; trees that stay are counted in.")),
        more => Some(format!("At this pace, trees that stay counted in, the last {}.", more.join("; the last "))),
    }
}

fn end(last: &Last, context: &Context<'_>) -> String {
    let this = context.findings.season.year;
    let [thin, thick] = last.inches.map(|inches| Length::of_inches(f64::from(inches)).show(context.units()));
    let tree = format!("{} of {thin} to {thick}", last.wood);
    match last.winters {
        [Some(first), Some(second)] if first == second && first == this => format!("{tree} falls this winter"),
        [Some(first), Some(second)] if first == second => format!("{tree} falls in the winter of {first}"),
        [Some(first), Some(second)] => format!("{tree} falls between the winters of {first} and {second}"),
        [Some(first), None] => format!("{tree} may fall in the winter of {first}, or as many grow as fall"),
        _ => format!("{tree} never falls: as many grow as fall"),
    }
}
