//! What a log of each wood and thickness weighs, green and soaked, beside the limit of each lift.

use std::sync::Arc;

use super::logs;
use crate::{
    book::{Book, Wood},
    quantity::{Length, Mass, Units},
    reckon::{
        Gap,
        lifting::{self, Hands, Lift, Limit, Stretch, limit},
        weight,
    },
    record::farm::{self, Grip},
};

/// How much heavier a soaked log is taken to be (this project's assumption; no source gives it).
pub const SOAKED: f64 = 1.10;

/// A lift that is reckoned for every log.
#[derive(Debug, Clone)]
pub struct TaskFinding {
    /// Its id in tables.
    pub id: String,
    /// The lift in words.
    pub name: String,
    /// Whether the log is wet from the tank.
    pub soaked: bool,
    /// Whether the farm described it itself.
    pub own: bool,
    /// Whether the equation reaches it.
    pub reached: Result<(), Gap>,
    shape: Shape,
}

/// A lift before a log's thickness is known, in inches or centimetres.
#[derive(Debug, Clone)]
struct Shape {
    from: f64,
    to: f64,
    reach: [Option<f64>; 2],
    with_care: bool,
    twist: f64,
    a_minute: f64,
    stretch: Stretch,
    grip: Grip,
}

/// A log of one wood and thickness.
#[derive(Debug, Clone)]
pub struct LoadFinding {
    /// The wood.
    pub wood: Arc<Wood>,
    /// Middle diameter.
    pub diameter: Length,
    /// Green weight.
    pub green: Result<Mass, Gap>,
}

impl LoadFinding {
    /// Weight green or soaked.
    ///
    /// # Errors
    ///
    /// A [`Gap`] where density or moisture is not recorded.
    pub fn mass(&self, soaked: bool) -> Result<Mass, Gap> {
        let heavier = if soaked { SOAKED } else { 1.0 };
        self.green.clone().map(|mass| Mass::of_kilograms(mass.base() * heavier))
    }
}

/// A weight in the pounds or kilograms of a unit set.
#[must_use]
pub fn load(mass: &Mass, units: Units) -> f64 {
    match units {
        Units::Us => mass.pounds(),
        Units::Metric => mass.base(),
    }
}

fn measure(length: &Length, units: Units) -> f64 {
    match units {
        Units::Us => length.inches(),
        Units::Metric => length.millimetres() / 10.0,
    }
}

/// The lifts: four usual ones (this project's choice), and the farm's own.
#[must_use]
pub fn tasks(book: &Book, units: Units) -> Vec<TaskFinding> {
    let usual = |id: &str, name: &str, soaked, us: [f64; 2], metric: [f64; 2], reach: Option<[f64; 2]>, a_minute| {
        let [from, to] = if units == Units::Us { us } else { metric };
        let reach = reach.map(|[us, metric]| if units == Units::Us { us } else { metric });
        let wet = id == "out-of-the-tank";
        TaskFinding {
            id: id.to_owned(),
            name: name.to_owned(),
            soaked,
            own: false,
            reached: Ok(()),
            shape: Shape {
                from,
                to,
                reach: [reach.filter(|_| wet), reach],
                with_care: !wet,
                twist: 0.0,
                a_minute,
                stretch: Stretch::Short,
                grip: Grip::Poor,
            },
        }
    };
    let mut tasks = vec![
        usual("ground-to-rail", "from the ground to a rail", false, [5.0, 30.0], [13.0, 75.0], None, 1.0),
        usual("bench-to-rail", "from a bench to a rail", false, [24.0, 30.0], [60.0, 75.0], None, 1.0),
        usual(
            "into-the-tank",
            "from the ground over the rim of a tank",
            false,
            [5.0, 27.0],
            [13.0, 69.0],
            Some([20.0, 50.0]),
            2.0,
        ),
        usual("out-of-the-tank", "wet, out of a tank", true, [12.0, 27.0], [30.0, 69.0], Some([20.0, 50.0]), 2.0),
    ];
    tasks.extend(book.farm.record.lift.as_ref().map(|lift| own(lift, units)));
    tasks
}

fn own(lift: &farm::Lift, units: Units) -> TaskFinding {
    let stretch = Stretch::of_hours(lift.hours);
    let outside = lift.outside.first().map_or(Ok(()), |what| Err(lifting::outside(*what)));
    let reach = |length: &Option<Length>| length.as_ref().map(|length| measure(length, units));
    TaskFinding {
        id: "own".to_owned(),
        name: lift.name.clone(),
        soaked: lift.soaked,
        own: true,
        reached: outside.and(stretch.clone().map(|_| ())),
        shape: Shape {
            from: measure(&lift.from, units),
            to: measure(&lift.to, units),
            reach: [reach(&lift.reach_from), reach(&lift.reach_to)],
            with_care: lift.set_down_with_care,
            twist: lift.twist,
            a_minute: lift.a_minute,
            stretch: stretch.unwrap_or(Stretch::Long),
            grip: lift.grip,
        },
    }
}

impl TaskFinding {
    /// The lift of a log of a thickness.
    #[must_use]
    pub fn lift(&self, diameter: &Length, units: Units) -> Lift {
        let shape = &self.shape;
        let thickness = measure(diameter, units);
        let hands = |height: f64, reach: Option<f64>| match reach {
            Some(reach) => Hands { reach, height },
            None => Hands::at(height, thickness, units),
        };
        Lift {
            from: hands(shape.from, shape.reach[0]),
            to: hands(shape.to, shape.reach[1]),
            with_care: shape.with_care,
            twist: shape.twist,
            a_minute: shape.a_minute,
            stretch: shape.stretch,
            grip: shape.grip,
        }
    }

    /// The limit of a log of a thickness.
    ///
    /// # Errors
    ///
    /// A [`Gap`] where the equation does not reach the lift.
    pub fn limit(&self, diameter: &Length, units: Units) -> Result<Limit, Gap> {
        self.reached.clone().map(|()| limit(&self.lift(diameter, units), units))
    }
}

/// A log of each of the farm's woods and thicknesses.
#[must_use]
pub fn loads(book: &Book, woods: &[Arc<Wood>], units: Units) -> Vec<LoadFinding> {
    let length = &book.farm.record.log.length;
    let diameters = logs::diameters(book, units);
    let of_wood = |wood: &Arc<Wood>| {
        let green = logs::green(&wood.record);
        let wood = Arc::clone(wood);
        diameters.clone().into_iter().map(move |diameter| LoadFinding {
            wood: Arc::clone(&wood),
            green: weight::log(&green, &diameter, length),
            diameter,
        })
    };
    woods.iter().flat_map(of_wood).collect()
}
