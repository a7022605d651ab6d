//! A harvest far above anything that logs were ever seen to give.

use super::{Odd, ever, picked};
use crate::book::lay::Pile;
use crate::book::{Batch, Book};
use crate::record::Kind;

/// Asks of each batch of which one day gave more than its logs give in a whole life by the highest published yield.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let ever = ever(book);
    let logs = |batch: &Batch| ever.get(batch.id.as_str()).copied().unwrap_or(batch.logs);
    let much = picked(book).filter(|(batch, harvest)| {
        let alone = harvest.batches.len() == 1;
        alone && most(batch).is_some_and(|most| harvest.record.weight.base() > most * f64::from(logs(batch)))
    });
    let odd = much.filter_map(|(batch, harvest)| {
        let what = format!(
            "{} were picked on {} from {} logs, more than they give in their whole life by any published yield",
            harvest.record.weight.written(),
            harvest.record.date.written(),
            logs(batch)
        );
        Odd::under(
            pile,
            Kind::Batch,
            &batch.id,
            "inoculated",
            what,
            "look at the weight and its unit, and at the batch",
        )
    });
    odd.collect()
}

/// The most that a log was ever seen to give, in kilograms.
fn most(batch: &Batch) -> Option<f64> {
    let yields = batch.strain.mushroom.record.log_yields.iter().map(|of| of.a_log.high.base());
    yields.max_by(f64::total_cmp)
}
