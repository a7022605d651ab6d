//! A stand whose count is so old that its density is no longer known.

use super::Odd;
use crate::book::Book;
use crate::book::lay::Pile;
use crate::record::{Kind, Link};

/// Years after which a count is to be made again.
const STALE: i16 = 10;

/// Asks of each stand that was counted ten years or more before the farm's season, once for each.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let season = book.farm.record.season;
    let of = |(id, node)| {
        let stand = book.stands.get(id)?;
        let counted = stand.record.measured?;
        (season - counted.0.year() >= STALE).then(|| Odd {
            about: Link::to(Kind::Stand, id),
            place: crate::read::Node::place_of(node, "measured"),
            what: format!(
                "{} was counted on {}, more than {STALE} years before this season; what comes out is reckoned from that",
                stand.record.name,
                counted.written()
            ),
            instead: "count it again, and write the day under `measured`".to_owned(),
        })
    };
    pile.of(Kind::Stand).map(|(id, laid)| (id, &laid.node)).filter_map(of).collect()
}
