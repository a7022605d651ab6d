//! A sale that cannot be: of neither batch nor strain, of a batch of another strain, before its batch was filled, far beyond
//! the season, or of less than came home unsold.

use super::called::Batches;
use super::{diary, unbelievable};
use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::quantity::Mass;
use crate::read::Node;
use crate::record::Kind;

/// Checks every sale.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let batches = Batches::of(pile);
    pile.nodes(Kind::Sale).flat_map(|node| one(pile, &batches, node)).collect()
}

fn one(pile: &Pile, batches: &Batches<'_>, node: &Node) -> Vec<Fault> {
    let alone =
        [of_nothing(node), too_much_unsold(node), diary::too_late(pile, node, "date"), diary::number_for_note(node)];
    let of_batch = batches.named(node).into_iter();
    let of_batch = of_batch.flat_map(|(id, batch)| [diary::too_soon(node, batch), of_another(node, id, batch)]);
    alone.into_iter().chain(of_batch).flatten().collect()
}

fn of_nothing(node: &Node) -> Option<Fault> {
    ["batch", "strain"].iter().all(|key| node.get(key).is_none()).then(|| {
        Fault::new("missing-key", "which batch was sold of is not said, nor which strain")
            .instead(
                "write the batch's id or its number under `batch`; where nobody can tell, its strain under `strain`",
            )
            .at(node.place_of("date"))
    })
}

fn of_another(node: &Node, id: &str, batch: &Node) -> Option<Fault> {
    let (told, own) = (node.word("strain")?, batch.word("strain")?);
    (told != own).then(|| {
        let wrong = format!("the batch `{id}` is of `{own}`, but `{told}` was sold of it");
        unbelievable(wrong, "keep the one that is right and empty the other", node.place_of("strain"))
    })
}

fn too_much_unsold(node: &Node) -> Option<Fault> {
    let [brought, unsold] = ["weight", "unsold"].map(|key| node.read(key, Mass::read));
    let (brought, unsold) = (brought?, unsold?);
    (unsold.base() > brought.base()).then(|| {
        let wrong = format!("{} came home unsold, but {} was brought to sell", unsold.written(), brought.written());
        let look = "`weight` is all that was brought, sold and unsold together";
        unbelievable(wrong, look, node.place_of("unsold"))
    })
}
