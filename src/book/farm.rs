//! The farm, linked to what it grows and has.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Batch, Diary, Listed, Mushroom, Origin, Register, Window, Wood, all};
use crate::fault::Place;
use crate::quantity::Date;
use crate::record;
use crate::record::diary::What;
use crate::record::farm::Yard;

/// The farm, linked.
#[derive(Debug)]
pub struct Farm {
    /// Where it comes from.
    pub origin: Origin,
    /// What it says.
    pub record: record::farm::Farm,
    /// The mushrooms it grows or would grow.
    pub grows: Vec<Arc<Mushroom>>,
    /// The woods it has.
    pub woods: Vec<Arc<Wood>>,
    /// The regional no-cut windows that hold here.
    pub no_cut: Vec<Arc<Window>>,
    /// Where the record names its own theme.
    pub look: Option<Place>,
}

impl Farm {
    /// The yard of a name.
    pub fn yard(&self, name: &str) -> Option<&Yard> {
        self.record.yards.iter().find(|yard| yard.name == name)
    }

    /// The yard in which a batch lies on a day by the lines about it, in the order of their dates: that to which all of it was
    /// last moved, or else its own, or the farm's first.
    pub fn yard_of(&self, batch: &Batch, lines: &[Arc<Diary>], day: Date) -> Option<&Yard> {
        let moved = moves(lines, day).filter(|line| line.logs.is_none()).filter_map(|line| line.to.as_deref());
        let named = moved.last().or(batch.record.yard.as_deref());
        named.map_or_else(|| self.record.yards.first(), |name| self.yard(name))
    }

    /// The yards in which the logs of a batch lie on a day, with how many of those that are left, its own first.
    pub fn yards_of(&self, batch: &Batch, lines: &[Arc<Diary>], day: Date, left: u32) -> Vec<(&Yard, u32)> {
        let Some(main) = self.yard_of(batch, lines, day) else { return Vec::new() };
        let mut away: BTreeMap<&str, u32> = BTreeMap::new();
        for line in moves(lines, day) {
            let Some(logs) = line.logs else {
                away.clear();
                continue;
            };
            let to = line.to.as_deref().filter(|to| *to != main.name);
            match to {
                Some(to) => *away.entry(to).or_default() += logs,
                None => {
                    away.values_mut().fold(logs, |back, there| {
                        let part = back.min(*there);
                        *there -= part;
                        back - part
                    });
                }
            }
        }
        let mut rest = left;
        let mut parts = Vec::new();
        for (name, logs) in away {
            let logs = logs.min(rest);
            rest -= logs;
            parts.extend(self.yard(name).map(|yard| (yard, logs)));
        }
        [(main, rest)].into_iter().chain(parts).filter(|(_, logs)| *logs > 0).collect()
    }
}

/// The lines that tell of a move, up to a day.
fn moves(lines: &[Arc<Diary>], day: Date) -> impl Iterator<Item = &record::diary::Diary> {
    lines.iter().map(|line| &line.record).filter(move |line| line.what == What::Moved && line.date <= day)
}

/// Links the farm; `None` where there is none.
pub(super) fn link(
    records: Vec<Listed<record::farm::Farm>>,
    mushrooms: &Register<Mushroom>,
    woods: &Register<Wood>,
    windows: &Register<Window>,
    look: Option<Place>,
) -> Option<Farm> {
    let Listed { origin, record, .. } = records.into_iter().next()?;
    let (grows, woods) = (all(&record.grows, mushrooms), all(&record.woods, woods));
    let no_cut = all(&record.no_cut, windows);
    Some(Farm { origin, record, grows, woods, no_cut, look })
}
