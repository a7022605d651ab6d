//! In which order does one walk from tree to tree?
//!
//! From the corner post to the nearest tree, from there to the nearest that is left, and so on; then pairs of legs are
//! crossed over as long as that shortens the walk. The walk is short, not always the shortest. Source: the nearest-neighbour
//! walk with two-leg exchanges, as in any textbook. Distances are in any one unit.

/// The order in which to visit places, by their numbers; the walk begins at the corner post.
///
/// ```
/// use hostwood::reckon::walk::walk;
/// assert_eq!(walk(&[[0.0, 30.0], [0.0, 10.0], [0.0, 20.0]]), [1, 2, 0]); // one after another along a line
/// ```
#[must_use]
pub fn walk(places: &[[f64; 2]]) -> Vec<usize> {
    let mut order: Vec<usize> = Vec::new();
    let mut here = [0.0, 0.0];
    let mut left: Vec<usize> = (0..places.len()).collect();
    while let Some(next) = left
        .iter()
        .copied()
        .min_by(|a, b| distance(here, places[*a]).total_cmp(&distance(here, places[*b])).then(a.cmp(b)))
    {
        left.retain(|place| *place != next);
        order.push(next);
        here = places[next];
    }
    while let Some((from, to)) = shorter(&order, places) {
        order[from..=to].reverse();
    }
    order
}

/// Two places of the walk between which it is shorter the other way round.
fn shorter(order: &[usize], places: &[[f64; 2]]) -> Option<(usize, usize)> {
    let at = |index: usize| places[order[index]];
    let before = |index: usize| if index == 0 { [0.0, 0.0] } else { at(index - 1) };
    for from in 0..order.len() {
        for to in from + 1..order.len() {
            let leaves = |here: [f64; 2]| if to + 1 < order.len() { distance(here, at(to + 1)) } else { 0.0 };
            let now = distance(before(from), at(from)) + leaves(at(to));
            let turned = distance(before(from), at(to)) + leaves(at(from));
            if turned < now - 1e-9 {
                return Some((from, to));
            }
        }
    }
    None
}

fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}
