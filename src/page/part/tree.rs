//! A tagged tree in a table.

use serde::Serialize;

use super::{Anchor, Figure};
use crate::{
    page::Context,
    reckon::findings::{TreeFinding, stands::standing, trees::Counted},
    record::tree::Condition,
};

/// A tagged tree in a table.
#[derive(Debug, Serialize)]
pub struct Row {
    /// Its tag.
    pub tag: String,
    /// Its wood.
    pub wood: Anchor,
    /// Its diameter.
    pub dbh: String,
    /// Its logs, and in brackets those of a stem 5 % thinner where that differs.
    pub logs: Figure,
    /// How the logs were counted, where they were not reckoned from its own height.
    pub counted: Option<&'static str>,
    /// Condition, clump and reason.
    pub why: String,
    /// What becomes of it.
    pub fate: &'static str,
    /// Where it stands.
    pub place: Option<String>,
    /// The room that it has, where it stays and has a place on the map.
    pub room: Option<Figure>,
}

impl Row {
    /// A tree seen from a page.
    #[must_use]
    pub fn of(found: &TreeFinding, context: &Context<'_>) -> Self {
        let units = context.units();
        let record = &found.tree.record;
        let working = found.place();
        let spread = found.careful.map(|careful| careful + found.limb_logs).filter(|careful| *careful != found.logs());
        let logs = match (&found.counted, spread) {
            (Ok(_), Some(careful)) => Figure::worked(format!("{} ({careful})", found.logs()), &working, context),
            (Ok(_), None) => Figure::worked(found.logs().to_string(), &working, context),
            (Err(_), _) if found.is_counted() => {
                Figure::worked(format!("{} of limbs", found.limb_logs), &working, context)
            }
            (Err(_), _) => Figure::gap("not counted"),
        };
        let condition = (record.condition != Condition::Sound).then(|| record.condition.words().to_owned());
        let clump = record.clump.as_ref().map(|clump| format!("clump {clump}, all stems together"));
        let why = [condition, clump, record.why.clone()].into_iter().flatten().collect::<Vec<_>>().join("; ");
        Self {
            tag: record.tag.to_string(),
            wood: Anchor::wood(&found.tree.wood, context),
            dbh: record.dbh.show(units),
            logs,
            counted: match found.counted {
                Ok(Counted::Eye) => Some("by eye"),
                Ok(Counted::StandHeight) => Some("by the stand's height"),
                _ => None,
            },
            why,
            fate: match (context.findings.winter().falls(&record.tag), found.may_fall()) {
                _ if found.is_down => "down already",
                (true, _) => "comes down",
                (false, true) => "not needed",
                (false, false) => "stays",
            },
            place: standing(found).and(record.east.as_ref()).zip(record.north.as_ref()).map(|(east, north)| {
                let show = |length: &crate::quantity::Length| match units {
                    crate::quantity::Units::Us => format!("{:.0}", length.feet()),
                    crate::quantity::Units::Metric => format!("{:.0}", length.base()),
                };
                format!("{} / {}", show(east), show(north))
            }),
            room: None,
        }
    }
}
