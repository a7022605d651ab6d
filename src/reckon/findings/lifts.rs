//! The limit of each lift, by the thickness of the log.

use std::slice;

use uom::si::f64::MassDensity;

use super::logs;
use super::logs::{LogWeight, WoodWeight};
use crate::book::Book;
use crate::quantity::{Length, Mass, Units, Value};
use crate::reckon::formula::{Figure, Place};
use crate::reckon::lifting::{End, Hands, Index, LIMIT, Lift, Stretch};
use crate::reckon::{Gap, Topic, lifting, weight};
use crate::record::farm;
use crate::record::farm::Grip;

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
    /// The lift, with the reach of a log of no thickness where that was not told, in the units in which it is reckoned.
    pub lift: Lift,
    /// The stretch of hours that the farm itself names.
    pub named: Option<Stretch>,
    /// Its limit in jobs of one, two and eight hours for a log of each of the farm's thicknesses, job by job.
    pub limits: Vec<LimitFinding>,
    // How far the hands reach where it begins and ends, where that is told.
    reach: [Option<f64>; 2],
}

/// The limit of a lift for a log of one thickness.
#[derive(Debug, Clone)]
pub struct LimitFinding {
    /// Middle diameter of the log.
    pub diameter: Length,
    /// How long the job goes on.
    pub stretch: Stretch,
    /// Where it begins and, where that counts, where it ends.
    pub ends: Vec<Figure<Mass>>,
    /// The lower of the two.
    pub limit: Figure<Mass>,
}

/// A log of one wood and thickness in one lift.
#[derive(Debug, Clone)]
pub struct Load<'a> {
    /// The log.
    pub log: &'a LogWeight,
    /// The limit for its thickness.
    pub limit: &'a LimitFinding,
    /// Its most weight over that limit.
    pub index: Figure<Index>,
}

/// The lifts: four usual ones (this project's choice), and the farm's own.
pub fn tasks(book: &Book, units: Units) -> Vec<TaskFinding> {
    let usual = |id: &str, name: &str, soaked, us: [f64; 2], metric: [f64; 2], reach: Option<[f64; 2]>, a_minute| {
        let [from, to] = units.pick(us, metric);
        let reach = reach.map(|[us, metric]| units.pick(us, metric));
        let wet = id == "out-of-the-tank";
        TaskFinding {
            id: id.to_owned(),
            name: name.to_owned(),
            soaked,
            own: false,
            reached: Ok(()),
            named: None,
            limits: Vec::new(),
            reach: [reach.filter(|_| wet), reach],
            lift: Lift {
                from: Hands::at(from, 0.0, units),
                to: Hands::at(to, 0.0, units),
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
    let diameters = logs::diameters(book, units);
    tasks.into_iter().map(|task| task.limited(&diameters, units)).collect()
}

fn own(lift: &farm::Lift, units: Units) -> TaskFinding {
    let stretch = Stretch::of_hours(lift.hours);
    let outside = lift.outside.first().map_or(Ok(()), |what| Err(lifting::outside(*what)));
    let reach = |length: &Option<Length>| length.as_ref().map(|length| length.number(units));
    TaskFinding {
        id: "own".to_owned(),
        name: lift.name.clone(),
        soaked: lift.soaked,
        own: true,
        reached: outside.and(stretch.clone().map(|_| ())),
        named: stretch.clone().ok(),
        limits: Vec::new(),
        reach: [reach(&lift.reach_from), reach(&lift.reach_to)],
        lift: Lift {
            from: Hands::at(lift.from.number(units), 0.0, units),
            to: Hands::at(lift.to.number(units), 0.0, units),
            with_care: lift.set_down_with_care,
            twist: lift.twist,
            a_minute: lift.a_minute,
            stretch: stretch.unwrap_or(Stretch::Long),
            grip: lift.grip,
        },
    }
}

impl LimitFinding {
    /// The lower limit of the two ends, nought where no lift is allowed, where the equation reaches the lift.
    pub fn lowest(&self) -> Option<&Mass> {
        let ends = self.ends.iter().filter_map(|end| end.result.as_ref().ok());
        ends.reduce(|one, other| if other.base() < one.base() { other } else { one })
    }
}

impl TaskFinding {
    /// The lift with its limits for logs of these thicknesses.
    fn limited(mut self, diameters: &[Length], units: Units) -> Self {
        let limit = |stretch| diameters.iter().map(move |diameter| (diameter, stretch));
        let all = Stretch::ALL.into_iter().flat_map(limit);
        self.limits = all.map(|(diameter, stretch)| self.limit(diameter, stretch, units)).collect();
        self
    }

    /// The lift of a log of a thickness.
    fn of(&self, diameter: &Length, stretch: Stretch, units: Units) -> Lift {
        let hands = |thin: Hands, reach: Option<f64>| {
            let around = Hands::at(thin.height, diameter.number(units), units);
            Hands { reach: reach.unwrap_or(around.reach), ..around }
        };
        let [from, to] = [hands(self.lift.from, self.reach[0]), hands(self.lift.to, self.reach[1])];
        Lift { from, to, stretch, ..self.lift.clone() }
    }

    fn limit(&self, diameter: &Length, stretch: Stretch, units: Units) -> LimitFinding {
        let place = Place::new(Topic::Lifting, self.id.clone());
        let found = lifting::limit(&self.of(diameter, stretch, units), units);
        let ends: Vec<End> = slice::from_ref(&found.begins).iter().chain(&found.ends).copied().collect();
        let mass = |end: &End| lifting::mass(end.limit, units);
        let end = |end: &End| LIMIT.figure(&place, put(end, units), "RWL", Ok(mass(end)));
        let limit = self.reached.clone().and_then(|()| found.allowed().map(|end| mass(&end)));
        LimitFinding {
            limit: LIMIT.figure(&place, vec![("W", diameter.into())], "RWL", limit),
            ends: self.reached.iter().flat_map(|()| &ends).map(end).collect(),
            diameter: diameter.clone(),
            stretch,
        }
    }

    /// Its limits in jobs of one length, by the thickness of the log.
    pub fn limits_for(&self, stretch: Stretch) -> impl Iterator<Item = &LimitFinding> {
        self.limits.iter().filter(move |limit| limit.stretch == stretch)
    }

    /// The most weight over the limit, for the logs of one wood in jobs of one length.
    pub fn loads<'a>(&'a self, logs: &'a [LogWeight], stretch: Stretch) -> impl Iterator<Item = Load<'a>> + 'a {
        let place = self.loads_place();
        logs.iter().zip(self.limits_for(stretch)).map(move |(log, limit)| {
            let (load, most) = (log.heaviest(self.soaked), limit.limit.result.clone());
            let put = load.iter().zip(&most).flat_map(|(load, most)| [("load", load.into()), ("RWL", most.into())]);
            let put = put.collect();
            let index = load.and_then(|load| Ok(Index::of(&load, &most?)));
            Load { log, limit, index: LIMIT.figure(&place, put, "LI", index) }
        })
    }

    /// The thickest log of a wood and a length that stays within the limit in jobs of one length.
    pub fn thickest(&self, wood: &WoodWeight, length: &Length, stretch: Stretch, units: Units) -> Figure<Length> {
        let place = self.loads_place();
        let density = self.reached.clone().and_then(|()| wood.heaviest());
        let put = density.iter().map(|density| ("ρ", density.into())).collect();
        let within = |density: MassDensity, diameter: &Length| {
            let mass = Mass::from(density * weight::volume(diameter, length));
            let load = if self.soaked { weight::soaked(&mass) } else { mass };
            let limit = lifting::limit(&self.of(diameter, stretch, units), units).governing().limit;
            load.base() <= lifting::mass(limit, units).base()
        };
        let thickest = density.and_then(|density| {
            lifting::thickest(|diameter| within(density, diameter))
                .ok_or(Gap::Outside("the equation allows no load at this reach, height, twist or pace"))
        });
        LIMIT.figure(&place, put, "W", thickest)
    }

    fn loads_place(&self) -> Place {
        Place::new(Topic::Lifting, format!("{}-loads", self.id))
    }
}

/// What the limit at one end of a lift is made of.
fn put(end: &End, units: Units) -> Vec<(&'static str, Value)> {
    let number = |number| Value::Number(number, 3);
    let parts = [("HM", end.reach), ("VM", end.height), ("DM", end.way), ("AM", end.twist), ("FM", end.frequency)];
    let constant = [("LC", lifting::mass(lifting::constant(units), units).into())];
    let parts = parts.into_iter().chain([("CM", end.grip)]).map(|(symbol, part)| (symbol, number(part)));
    constant.into_iter().chain(parts).collect()
}
