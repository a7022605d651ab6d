//! A batch of a winter after the farm's season.

use super::Odd;
use crate::book::Book;
use crate::book::lay::Pile;
use crate::record::Kind;

/// Asks of each batch that was inoculated in a later winter than that of the farm's season.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let season = book.farm.record.season;
    let ahead = book
        .batches
        .values()
        .filter(|batch| batch.record.inoculated.winter(book.farm.record.place.is_south()) > season);
    let odd = ahead.filter_map(|batch| {
        let what = format!(
            "this batch was inoculated on {}, after the season of {season} that the farm is in",
            batch.record.inoculated.written()
        );
        Odd::under(pile, Kind::Batch, &batch.id, "inoculated", what, "look at the year, and at `season` in farm.yaml")
    });
    odd.collect()
}
