//! How many logs a stand gives for good, in words.

use super::Figure;
use super::cite::Cite;
use crate::page::Context;
use crate::quantity::measure::rounded;
use crate::quantity::{BasalArea, Length, count};
use crate::reckon::findings::GrowthFinding;
use crate::reckon::findings::growth::{By, Last};
use crate::record::Id;
use crate::record::said::Mark;
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
    /// When the last tree of a size falls.
    lasts: Vec<String>,
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
            format!("; {} stems a year reach {}, thick enough for a log", whole(*ends), found.limit.show(units))
        });
        let (by, cite) = match &found.by {
            Ok(By::Counts(summers)) => {
                (Some(format!("two counts, {} apart", count(*summers, "summer", "summers"))), None)
            }
            Ok(By::Rate(source, without)) => {
                let without = match without.as_slice() {
                    [] => String::new(),
                    woods => format!("; nothing is published for {}, taken to grow as the others", super::and(woods)),
                };
                let cite = Cite::of(&Id::new(source.clone()), Mark::Copy, context);
                (Some(format!("a published rate, on poor and on good ground{without}")), Some(cite))
            }
            Err(_) => (None, None),
        };
        Self {
            logs,
            grows: gains.map(|gains| format!("It gains {gains} a year{}", reach.unwrap_or_default())),
            by,
            cite,
            lasts: found.lasts.iter().map(|last| ends(last, context)).collect(),
        }
    }
}

/// Two ends in whole numbers, once where they are one.
pub fn whole(ends: [f64; 2]) -> String {
    let [least, most] = ends.map(|end| rounded(end.max(0.0), 0));
    if least == most { least } else { format!("{least} to {most}") }
}

/// When the last tree of a size falls: "at this pace the last red oak of up to 7 in falls in 2032 to 2036".
fn ends(last: &Last, context: &Context<'_>) -> String {
    let size = Length::of_inches(f64::from(last.inches)).show(context.units());
    let tree = format!("{} of up to {size}", last.wood);
    match last.winters {
        [Some(first), Some(second)] if first == second => {
            format!("At this pace the last {tree} falls in the winter of {first}.")
        }
        [Some(first), Some(second)] => {
            format!("At this pace the last {tree} falls between the winters of {first} and {second}.")
        }
        [Some(first), None] => {
            format!("At this pace the last {tree} may fall in the winter of {first}, or as many grow as fall.")
        }
        _ => format!("At this pace {tree} grows as fast as it falls."),
    }
}
