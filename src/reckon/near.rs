//! What stands near a place?
//!
//! Places are halved by turns at their middle from west to east and from south to north, so that whatever lies on the far
//! side of a line is looked at only where it can be near enough. Source: the k-d tree, as in any textbook. Distances are in
//! any one unit.

/// Places among which the nearest are found.
#[derive(Debug, Clone)]
pub struct Near<'a> {
    places: &'a [[f64; 2]],
    order: Vec<usize>,
    at: Vec<usize>,
    left: Vec<usize>,
    taken: Vec<bool>,
}

/// A stretch of the order, halved along an axis.
#[derive(Clone, Copy)]
struct Half {
    from: usize,
    to: usize,
    axis: usize,
}

impl Half {
    const fn middle(self) -> usize {
        usize::midpoint(self.from, self.to)
    }

    const fn is_empty(self) -> bool {
        self.from >= self.to
    }

    /// The places before the middle, and those after it.
    const fn parts(self) -> [Self; 2] {
        let (middle, axis) = (self.middle(), 1 - self.axis);
        [Self { from: self.from, to: middle, axis }, Self { from: middle + 1, to: self.to, axis }]
    }
}

impl<'a> Near<'a> {
    /// Puts places in order.
    #[must_use]
    pub fn of(places: &'a [[f64; 2]]) -> Self {
        let mut order: Vec<usize> = (0..places.len()).collect();
        let mut left = vec![0; places.len()];
        let whole = Half { from: 0, to: places.len(), axis: 0 };
        halve(places, &mut order, &mut left, whole);
        let mut at = vec![0; places.len()];
        order.iter().enumerate().for_each(|(index, place)| at[*place] = index);
        Self { places, order, at, left, taken: vec![false; places.len()] }
    }

    const fn whole(&self) -> Half {
        Half { from: 0, to: self.places.len(), axis: 0 }
    }

    /// Takes a place away, so that it is found no more.
    pub fn take(&mut self, place: usize) {
        if std::mem::replace(&mut self.taken[place], true) {
            return;
        }
        let (at, mut half) = (self.at[place], self.whole());
        loop {
            let middle = half.middle();
            self.left[middle] -= 1;
            match at.cmp(&middle) {
                std::cmp::Ordering::Less => half = half.parts()[0],
                std::cmp::Ordering::Greater => half = half.parts()[1],
                std::cmp::Ordering::Equal => return,
            }
        }
    }

    /// The nearest places that are left, at most so many, the nearest first; of equally near ones the first.
    ///
    /// ```
    /// use hostwood::reckon::near::Near;
    /// assert_eq!(Near::of(&[[9.0, 0.0], [1.0, 0.0], [4.0, 3.0]]).nearest([0.0, 0.0], 2), [1, 2]);
    /// ```
    #[must_use]
    pub fn nearest(&self, from: [f64; 2], most: usize) -> Vec<usize> {
        let mut found: Vec<(f64, usize)> = Vec::with_capacity(most + 1);
        let mut reach = f64::INFINITY;
        self.search(from, self.whole(), &mut reach, &mut |apart, place, reach| {
            let before = found.partition_point(|other| *other < (apart, place));
            found.insert(before, (apart, place));
            found.truncate(most);
            if found.len() == most {
                *reach = found.last().map_or(0.0, |(furthest, _)| *furthest);
            }
        });
        found.into_iter().map(|(_, place)| place).collect()
    }

    /// The places that are left within a distance, in the order in which they were given.
    #[must_use]
    pub fn within(&self, from: [f64; 2], mut reach: f64) -> Vec<usize> {
        let mut found = Vec::new();
        self.search(from, self.whole(), &mut reach, &mut |_, place, _| found.push(place));
        found.sort_unstable();
        found
    }

    /// Hands over every place within reach with its distance; each time the reach may shrink.
    fn search(&self, from: [f64; 2], half: Half, reach: &mut f64, found: &mut dyn FnMut(f64, usize, &mut f64)) {
        if half.is_empty() || self.left[half.middle()] == 0 {
            return;
        }
        let place = self.order[half.middle()];
        let apart = distance(from, self.places[place]);
        if apart <= *reach && !self.taken[place] {
            found(apart, place, reach);
        }
        let beyond = from[half.axis] - self.places[place][half.axis];
        let [before, after] = half.parts();
        let (near, far) = if beyond < 0.0 { (before, after) } else { (after, before) };
        self.search(from, near, reach, found);
        if beyond.abs() <= *reach {
            self.search(from, far, reach, found);
        }
    }
}

fn halve(places: &[[f64; 2]], order: &mut [usize], left: &mut [usize], half: Half) {
    if half.is_empty() {
        return;
    }
    let middle = half.middle();
    left[middle] = half.to - half.from;
    let by_axis = |a: &usize, b: &usize| places[*a][half.axis].total_cmp(&places[*b][half.axis]).then(a.cmp(b));
    order[half.from..half.to].select_nth_unstable_by(middle - half.from, by_axis);
    for part in half.parts() {
        halve(places, order, left, part);
    }
}

/// How far two places lie apart.
#[must_use]
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
            taken in proptest::collection::vec(0usize..80, 0..40),
            from in (0i8..20, 0i8..20),
            reach in 0.0f64..15.0,
        ) {
            let spot = |(east, north): (i8, i8)| [f64::from(east), f64::from(north)];
            let places: Vec<[f64; 2]> = places.into_iter().map(spot).collect();
            let from = spot(from);
            let mut near = Near::of(&places);
            taken.iter().filter(|place| **place < places.len()).for_each(|place| near.take(*place));
            let mut left: Vec<usize> = (0..places.len()).filter(|place| !taken.contains(place)).collect();
            let apart = |place: &usize| distance(from, places[*place]);
            let within: Vec<usize> = left.iter().copied().filter(|place| apart(place) <= reach).collect();
            prop_assert_eq!(near.within(from, reach), within);
            left.sort_by(|a, b| apart(a).total_cmp(&apart(b)).then(a.cmp(b)));
            left.truncate(5);
            prop_assert_eq!(near.nearest(from, 5), left);
        }
    }
}
