//! In which order does one walk from tree to tree?
//!
//! From the corner post to the nearest tree, from there to the nearest that is left, and so on; then pairs of legs are
//! crossed over as long as that shortens the walk, each place with the nearest round it. The walk is short, not always the
//! shortest. Source: the nearest-neighbour walk with two-leg exchanges, as in any textbook. Distances are in any one unit.

use std::collections::VecDeque;

use super::near::{Near, distance};

/// Places round each with which its legs are crossed over.
const ROUND: usize = 12;
/// The longest part of a walk that is turned round.
const LONGEST: usize = 1000;
/// Turns for each place, at most; a walk of real trees takes one or two.
const TURNS: usize = 50;

/// The order in which to visit places, by their numbers; the walk begins at the corner post.
///
/// ```
/// use hostwood::reckon::walk::walk;
/// assert_eq!(walk(&[[0.0, 30.0], [0.0, 10.0], [0.0, 20.0]]), [1, 2, 0]); // one after another along a line
/// ```
pub fn walk(places: &[[f64; 2]]) -> Vec<usize> {
    let mut walk = Walk::by_nearest(places);
    walk.shorten();
    walk.order
}

/// A walk that is being shortened.
struct Walk<'a> {
    places: &'a [[f64; 2]],
    order: Vec<usize>,
    at: Vec<usize>,
}

impl<'a> Walk<'a> {
    /// Always on to the nearest place that is left.
    fn by_nearest(places: &'a [[f64; 2]]) -> Self {
        let mut near = Near::of(places);
        let mut order = Vec::with_capacity(places.len());
        let mut at = vec![0; places.len()];
        let mut here = [0.0, 0.0];
        while let Some(next) = near.take_nearest(here) {
            at[next] = order.len();
            order.push(next);
            here = places[next];
        }
        Self { places, order, at }
    }

    /// Turns parts of the walk round as long as that shortens it; a place whose legs have changed is looked at again.
    fn shorten(&mut self) {
        let near = Near::of(self.places);
        let round: Vec<Vec<usize>> =
            self.places.iter().enumerate().map(|(place, spot)| others(place, near.nearest(*spot, ROUND + 1))).collect();
        let mut waiting: VecDeque<usize> = self.order.iter().copied().collect();
        let mut waits = vec![true; self.places.len()];
        let mut turns = self.places.len() * TURNS;
        while let Some(place) = waiting.pop_front() {
            waits[place] = false;
            while let Some((from, to)) = self.shorter(place, &round[place]).filter(|_| turns > 0) {
                self.turn(from, to);
                turns -= 1;
                let ends = [from.checked_sub(1), Some(from), Some(to), Some(to + 1)];
                for end in ends.into_iter().flatten().filter_map(|end| self.order.get(end).copied()) {
                    if !std::mem::replace(&mut waits[end], true) {
                        waiting.push_back(end);
                    }
                }
            }
        }
    }

    /// A part of the walk beside a place that is shorter the other way round: the leg to the place, or the leg from it, is
    /// exchanged for one to a place near it, or to the corner post.
    fn shorter(&self, place: usize, round: &[usize]) -> Option<(usize, usize)> {
        let here = self.at[place];
        let parts = round.iter().flat_map(|other| {
            let there = self.at[*other];
            let (first, last) = (here.min(there), here.max(there));
            // Both legs that lead on from the two places, or both that lead to them.
            [(first + 1, last), (first, last - 1)]
        });
        let may = |(from, to): &(usize, usize)| from < to && to - from < LONGEST;
        std::iter::once((0, here)).chain(parts).filter(may).find(|(from, to)| self.gains(*from, *to))
    }

    fn gains(&self, from: usize, to: usize) -> bool {
        let spot = |at: usize| self.places[self.order[at]];
        let before = from.checked_sub(1).map_or([0.0, 0.0], spot);
        let leaves = |here: [f64; 2]| self.order.get(to + 1).map_or(0.0, |next| distance(here, self.places[*next]));
        let now = distance(before, spot(from)) + leaves(spot(to));
        let turned = distance(before, spot(to)) + leaves(spot(from));
        turned < now - 1e-9
    }

    fn turn(&mut self, from: usize, to: usize) {
        self.order[from..=to].reverse();
        for at in from..=to {
            self.at[self.order[at]] = at;
        }
    }
}

fn others(place: usize, mut round: Vec<usize>) -> Vec<usize> {
    round.retain(|other| *other != place);
    round
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn length(places: &[[f64; 2]], order: &[usize]) -> f64 {
        let spots = || order.iter().map(|place| places[*place]);
        std::iter::once([0.0, 0.0]).chain(spots()).zip(spots()).map(|(a, b)| distance(a, b)).sum()
    }

    proptest! {
        #[test]
        fn every_place_is_visited_once_and_no_leg_near_by_is_better_crossed_over(
            places in proptest::collection::vec((-100i16..100, -100i16..100), 0..60),
        ) {
            let places: Vec<[f64; 2]> =
                places.into_iter().map(|(east, north)| [f64::from(east), f64::from(north)]).collect();
            let found = walk(&places);
            let mut visited = found.clone();
            visited.sort_unstable();
            prop_assert_eq!(visited, (0..places.len()).collect::<Vec<_>>());
            let nearest = Walk::by_nearest(&places).order;
            prop_assert!(length(&places, &found) <= length(&places, &nearest) + 1e-6);
            if places.len() <= ROUND {
                let all = Walk { places: &places, at: vec![0; places.len()], order: found };
                let gains = (0..places.len()).any(|to| (0..to).any(|from| to > from && all.gains(from, to)));
                prop_assert!(!gains);
            }
        }
    }
}
