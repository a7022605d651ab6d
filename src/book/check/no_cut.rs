//! A window that the farm keeps as a no-cut window and that is none.

use crate::book::lay::Pile;
use crate::fault::Fault;
use crate::record::Kind;
use crate::record::window::WindowKind;

/// Checks that each window under `no_cut` of the farm is of the kind `no-cut`.
pub(super) fn check(pile: &Pile) -> Vec<Fault> {
    let named = pile.farm().map_or(&[][..], |farm| farm.items("no_cut"));
    let wrong = named.iter().filter_map(|item| {
        let id = item.text()?;
        let kind = pile.node(Kind::Window, id)?.word("kind")?;
        (kind != WindowKind::NoCut.id()).then(|| {
            Fault::new("not-a-no-cut-window", format!("the window `{id}` is of the kind `{kind}`"))
                .instead("name a window of the kind `no-cut`, or take it from this list")
                .at(item.place.clone())
        })
    });
    wrong.collect()
}
