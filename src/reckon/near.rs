//! What stands near a place?
//!
//! Places lie in an R*-tree (Beckmann and others 1990), so that whatever is far away is not looked at one by one. Distances are
//! in any one unit.

use rstar::RTree;
use rstar::primitives::GeomWithData;

/// Places among which the nearest are found, each by its number.
#[derive(Debug, Clone)]
pub struct Near(RTree<GeomWithData<[f64; 2], usize>>);

impl Near {
    /// Puts places in order.
    pub fn of(places: &[[f64; 2]]) -> Self {
        let numbered = places.iter().enumerate().map(|(number, place)| GeomWithData::new(*place, number));
        Self(RTree::bulk_load(numbered.collect()))
    }

    /// Takes the nearest place that is left away, so that it is found no more.
    pub fn take_nearest(&mut self, from: [f64; 2]) -> Option<usize> {
        self.0.pop_nearest_neighbor(from).map(|taken| taken.data)
    }

    /// The nearest places that are left, at most so many, the nearest first.
    ///
    /// ```
    /// use hostwood::reckon::near::Near;
    /// assert_eq!(Near::of(&[[9.0, 0.0], [1.0, 0.0], [4.0, 3.0]]).nearest([0.0, 0.0], 2), [1, 2]);
    /// ```
    pub fn nearest(&self, from: [f64; 2], most: usize) -> Vec<usize> {
        self.0.nearest_neighbor_iter(from).take(most).map(|found| found.data).collect()
    }

    /// The places that are left within a distance, in the order in which they were given.
    pub fn within(&self, from: [f64; 2], reach: f64) -> Vec<usize> {
        let mut found: Vec<usize> =
            self.0.locate_within_distance(from, reach * reach).map(|found| found.data).collect();
        found.sort_unstable();
        found
    }
}

/// How far two places lie apart.
pub fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_same_places_are_found_as_by_looking_at_every_one(
            places in proptest::collection::vec((0i8..20, 0i8..20), 1..80),
            taken in 0usize..40,
            from in (0i8..20, 0i8..20),
            reach in 0.05f64..15.0,
        ) {
            let spot = |(east, north): (i8, i8)| [f64::from(east), f64::from(north)];
            let places: Vec<[f64; 2]> = places.into_iter().map(spot).collect();
            let from = spot(from);
            let apart = |place: &usize| distance(from, places[*place]);
            let mut near = Near::of(&places);
            let mut left: Vec<usize> = (0..places.len()).collect();
            for _ in 0..taken.min(places.len()) {
                let least = left.iter().map(apart).fold(f64::INFINITY, f64::min);
                let nearest = near.take_nearest(from).unwrap();
                prop_assert!((apart(&nearest) - least).abs() < 1e-12);
                left.retain(|place| *place != nearest);
            }
            let within: Vec<usize> = left.iter().copied().filter(|place| apart(place) <= reach).collect();
            prop_assert_eq!(near.within(from, reach), within);
            let mut distances: Vec<f64> = left.iter().map(apart).collect();
            distances.sort_by(f64::total_cmp);
            distances.truncate(5);
            prop_assert_eq!(near.nearest(from, 5).iter().map(apart).collect::<Vec<_>>(), distances);
        }
    }
}
