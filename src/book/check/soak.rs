//! A rota with more soaks than its season has weeks, or with a round that is no whole number of weeks.

use super::unbelievable;
use crate::book::Writer;
use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::quantity::{DayOfYear, Duration};
use crate::read::Node;
use crate::record::Kind;
use crate::record::window::WindowKind;

/// Weeks from soak to soak where the farm names none.
const USUAL_WEEKS: u64 = 9;

/// Checks how the farm soaks against its own soaking seasons; against the year where it has none.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let Some(soak) = pile.farm().and_then(|farm| farm.get("soak")) else { return Vec::new() };
    broken_weeks(soak).into_iter().chain(too_often(pile, soak)).collect()
}

fn broken_weeks(soak: &Node) -> Option<Fault> {
    let every = soak.read("every", Duration::read)?;
    let weeks = every.days() / 7.0;
    let whole = weeks.round().max(1.0);
    // A year or a month is no whole number of weeks, but is meant as about so many.
    ((weeks - whole).abs() > 0.25).then(|| {
        let wrong = format!("`{every}` is no whole number of weeks");
        unbelievable(wrong, format!("write `{whole} weeks`, if that is meant"), soak.place_of("every"))
    })
}

fn too_often(pile: &Pile, soak: &Node) -> Option<Fault> {
    let soaks = soak.number("soaks")?;
    let every = soak.read("every", Duration::read);
    let every = every.map_or(USUAL_WEEKS, |every| (every.days() / 7.0).round().max(1.0) as u64);
    let own = pile.of(Kind::Window).filter(|(_, laid)| laid.origin.writer != Writer::Handbook);
    let seasons: Option<Vec<u64>> = own
        .filter(|(_, laid)| laid.node.word("kind") == Some(WindowKind::Soak.id()))
        .map(|(_, laid)| weeks(&laid.node))
        .collect();
    let season = seasons?.into_iter().max().unwrap_or(52);
    let needed = soaks.saturating_sub(1) * every + 1;
    (needed > season).then(|| {
        let fits = season.saturating_sub(1) / every + 1;
        let wrong = format!("{soaks} soaks of a log, {every} weeks apart, do not fit into a season of {season} weeks");
        let instead = format!("write at most {fits}, or a longer season of kind `soak`");
        unbelievable(wrong, instead, soak.place_of("soaks"))
    })
}

/// Weeks in which a soak may begin; `None` where an end is no date of the year.
fn weeks(window: &Node) -> Option<u64> {
    let day = |key: &str| window.read(key, DayOfYear::read);
    let days = i32::from(day("to")?.number()) - i32::from(day("from")?.number());
    u64::try_from(days.rem_euclid(365) / 7 + 1).ok()
}
