//! May one person lift this log?
//!
//! RWL = LC × HM × VM × DM × AM × FM × CM,  LI = load / RWL
//!
//! | multiplier | inches and pounds | centimetres and kilograms | outside |
//! |---|---|---|---|
//! | LC, load constant | 51 | 23 | |
//! | HM, reach H | 10 / H | 25 / H | below 10 (25): 1; above 25 (63): no lift |
//! | VM, hands' height V | 1 − 0.0075 \|V − 30\| | 1 − 0.003 \|V − 75\| | above 70 (175): no lift |
//! | DM, way up or down D | 0.82 + 1.8 / D | 0.82 + 4.5 / D | below 10 (25): 1; above 70 (175): no lift |
//! | AM, twist A in degrees | 1 − 0.0032 A | the same | above 135: no lift |
//! | FM, frequency F and hours | table 5, straight lines between its rows | the same | above the last row: no lift |
//! | CM, grip | table 7 | the same | |
//!
//! The two unit sets are not conversions of one another, so a lift is reckoned in one and shown in it. The limit holds
//! where the lift begins and, where the load is set down with care, also where it ends; the lower of the two counts. FM
//! takes the hands' height at the beginning for both ends, CM that of each end. Between the last row of a column of table 5
//! and a rate at which no lift is allowed, no lift is allowed (this project's careful choice).
//!
//! Where H was not measured: H = 8 + W / 2 in (20 + W / 2 cm) with the hands at 10 in (25 cm) or higher, 10 + W / 2 in
//! (25 + W / 2 cm) below, W the thickness of the load.
//!
//! Source: Waters, Putz-Anderson & Garg 1994, revised 2021, NIOSH 94-110, read in a typed copy. Not rounded here.

use super::Gap;
use super::formula::Formula;
use crate::quantity::{Length, Mass, Units, Value};
use crate::record::farm::{Grip, Outside};
use crate::record::said::Mark;

/// Table 5: lifts a minute, then the multiplier for up to one, two and eight hours, each with the hands below and at or
/// above 30 in (75 cm).
const FREQUENCY: [(f64, [f64; 6]); 18] = [
    (0.2, [1.00, 1.00, 0.95, 0.95, 0.85, 0.85]),
    (0.5, [0.97, 0.97, 0.92, 0.92, 0.81, 0.81]),
    (1.0, [0.94, 0.94, 0.88, 0.88, 0.75, 0.75]),
    (2.0, [0.91, 0.91, 0.84, 0.84, 0.65, 0.65]),
    (3.0, [0.88, 0.88, 0.79, 0.79, 0.55, 0.55]),
    (4.0, [0.84, 0.84, 0.72, 0.72, 0.45, 0.45]),
    (5.0, [0.80, 0.80, 0.60, 0.60, 0.35, 0.35]),
    (6.0, [0.75, 0.75, 0.50, 0.50, 0.27, 0.27]),
    (7.0, [0.70, 0.70, 0.42, 0.42, 0.22, 0.22]),
    (8.0, [0.60, 0.60, 0.35, 0.35, 0.18, 0.18]),
    (9.0, [0.52, 0.52, 0.30, 0.30, 0.00, 0.15]),
    (10.0, [0.45, 0.45, 0.26, 0.26, 0.00, 0.13]),
    (11.0, [0.41, 0.41, 0.00, 0.23, 0.00, 0.00]),
    (12.0, [0.37, 0.37, 0.00, 0.21, 0.00, 0.00]),
    (13.0, [0.00, 0.34, 0.00, 0.00, 0.00, 0.00]),
    (14.0, [0.00, 0.31, 0.00, 0.00, 0.00, 0.00]),
    (15.0, [0.00, 0.28, 0.00, 0.00, 0.00, 0.00]),
    (f64::INFINITY, [0.00, 0.00, 0.00, 0.00, 0.00, 0.00]),
];

/// Air in which the equation holds, in degrees Celsius, by its manual.
pub const AIR: [f64; 2] = [19.0, 26.0];

/// The constants of one unit set.
struct Set {
    load: f64,
    reach: [f64; 2],
    knuckles: f64,
    slope: f64,
    highest: f64,
    way: [f64; 2],
    gain: f64,
    estimate: [f64; 2],
    low: f64,
}

const US: Set = Set {
    load: 51.0,
    reach: [10.0, 25.0],
    knuckles: 30.0,
    slope: 0.0075,
    highest: 70.0,
    way: [10.0, 70.0],
    gain: 1.8,
    estimate: [8.0, 10.0],
    low: 10.0,
};

const METRIC: Set = Set {
    load: 23.0,
    reach: [25.0, 63.0],
    knuckles: 75.0,
    slope: 0.003,
    highest: 175.0,
    way: [25.0, 175.0],
    gain: 4.5,
    estimate: [20.0, 25.0],
    low: 25.0,
};

fn set(units: Units) -> &'static Set {
    units.pick(&US, &METRIC)
}

/// Where nobody measured the reach: what is added to half the thickness of the load with the hands high and low, and the
/// height of the hands from which they are high; inches or centimetres.
pub fn estimate(units: Units) -> [f64; 3] {
    let set = set(units);
    [set.estimate[0], set.estimate[1], set.low]
}

/// How long a stretch of lifting counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stretch {
    /// Up to an hour, then a rest as long as the work.
    Short,
    /// Up to two hours, then a rest of three tenths of the work.
    Moderate,
    /// Up to eight hours with the usual breaks.
    Long,
}

impl Stretch {
    /// Each of them.
    pub const ALL: [Self; 3] = [Self::Short, Self::Moderate, Self::Long];

    /// The hours of work up to which it reaches.
    pub const fn hours(self) -> u32 {
        match self {
            Self::Short => 1,
            Self::Moderate => 2,
            Self::Long => 8,
        }
    }

    /// The stretch that so many hours make.
    ///
    /// # Errors
    ///
    /// A [`Gap`] above eight hours, for which no limit is given.
    pub fn of_hours(hours: f64) -> Result<Self, Gap> {
        match hours {
            hours if hours <= 1.0 => Ok(Self::Short),
            hours if hours <= 2.0 => Ok(Self::Moderate),
            hours if hours <= 8.0 => Ok(Self::Long),
            _ => Err(Gap::Outside("the lifting equation gives no limit for more than eight hours")),
        }
    }

    const fn column(self) -> usize {
        match self {
            Self::Short => 0,
            Self::Moderate => 2,
            Self::Long => 4,
        }
    }
}

/// Where the hands are: how far out and how high, in inches or centimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hands {
    /// From between the ankles to under the hands.
    pub reach: f64,
    /// Above the floor.
    pub height: f64,
}

impl Hands {
    /// Hands at a height whose reach was not measured, estimated from the thickness of the load.
    pub fn at(height: f64, thickness: f64, units: Units) -> Self {
        let set = set(units);
        let [high, low] = set.estimate;
        Self { reach: if height >= set.low { high } else { low } + thickness / 2.0, height }
    }
}

/// A lift, in the inches or centimetres of one unit set.
#[derive(Debug, Clone, PartialEq)]
pub struct Lift {
    /// Where it begins.
    pub from: Hands,
    /// Where it ends.
    pub to: Hands,
    /// Whether the load is set down with care, so that the end counts.
    pub with_care: bool,
    /// Degrees of twist.
    pub twist: f64,
    /// Lifts a minute.
    pub a_minute: f64,
    /// How long it goes on.
    pub stretch: Stretch,
    /// How well the hands hold.
    pub grip: Grip,
}

/// The multipliers at one end, and the limit that they give.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct End {
    /// Reach.
    pub reach: f64,
    /// Height of the hands.
    pub height: f64,
    /// Way up or down.
    pub way: f64,
    /// Twist.
    pub twist: f64,
    /// Frequency.
    pub frequency: f64,
    /// Grip.
    pub grip: f64,
    /// Recommended weight limit, in pounds or kilograms; nought where no lift is allowed.
    pub limit: f64,
}

/// The limit of a lift at both ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limit {
    /// Where it begins.
    pub begins: End,
    /// Where it ends, where that counts.
    pub ends: Option<End>,
}

impl Limit {
    /// The end that counts: the one with the lower limit.
    pub fn governing(&self) -> End {
        self.ends.filter(|ends| ends.limit < self.begins.limit).unwrap_or(self.begins)
    }

    /// The end that counts.
    ///
    /// # Errors
    ///
    /// A [`Gap`] where no lift is allowed at all.
    pub fn allowed(&self) -> Result<End, Gap> {
        let end = self.governing();
        let none = "the equation allows no load at this reach, height, twist or pace";
        if end.limit > 0.0 { Ok(end) } else { Err(Gap::Outside(none)) }
    }
}

/// The lifting index: load over limit.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Index(pub f64);

impl Index {
    /// The index of a load.
    ///
    /// ```
    /// use hostwood::{quantity::Mass, reckon::lifting::Index};
    /// let [load, limit] = [28.63, 25.0].map(Mass::of_pounds);
    /// assert!((Index::of(&load, &limit).0 - 1.145).abs() < 5e-4); // a 5 in log from the ground to a rail
    /// ```
    pub fn of(load: &Mass, limit: &Mass) -> Self {
        Self(load.base() / limit.base())
    }
}

impl From<Index> for Value {
    fn from(Index(index): Index) -> Self {
        Self::Text(format!("{index:.2}"))
    }
}

/// A weight in the pounds or kilograms of a unit set.
pub fn mass(number: f64, units: Units) -> Mass {
    units.pick(Mass::of_pounds(number), Mass::of_kilograms(number))
}

/// The load constant of a unit set, in pounds or kilograms.
pub fn constant(units: Units) -> f64 {
    set(units).load
}

/// The recommended weight limit.
pub const LIMIT: Formula = Formula {
    name: "Recommended weight limit",
    math: r#"<math display="block"><mrow><mi>RWL</mi><mo>=</mo><mi>LC</mi><mo>·</mo><mi>HM</mi><mo>·</mo><mi>VM</mi><mo>·</mo><mi>DM</mi><mo>·</mo><mi>AM</mi><mo>·</mo><mi>FM</mi><mo>·</mo><mi>CM</mi><mspace width="2em"/><mi>LI</mi><mo>=</mo><mfrac><mrow><mi>load</mi></mrow><mrow><mi>RWL</mi></mrow></mfrac></mrow></math>"#,
    words: "The load constant, made smaller by reach, height of the hands, way up or down, twist, pace and grip; reckoned where the lift begins and, where the log is set down with care, where it ends. The lower limit counts, and the thickest log for one person is that whose most weight comes to it.",
    symbols: &[
        ("LC", "51 lb, or 23 kg"),
        ("W, ρ", "thickness of the log, its most weight by its volume"),
        ("HM", "10 / H in, or 25 / H cm"),
        ("VM", "1 − 0.0075 |V − 30| in, or 1 − 0.003 |V − 75| cm"),
        ("DM", "0.82 + 1.8 / D in, or 0.82 + 4.5 / D cm"),
        ("AM", "1 − 0.0032 A, degrees"),
        ("FM, CM", "tables of pace and length of the job, and of grip"),
    ],
    sources: &[("niosh-94-110", Mark::Copy)],
    own: "",
};

/// The thickest log that is still within a limit, to a tenth of a millimetre; none where not even the thinnest is.
///
/// ```
/// use hostwood::reckon::lifting::thickest;
/// assert!((thickest(|log| log.inches() <= 4.7).unwrap().inches() - 4.7).abs() < 0.005);
/// assert!(thickest(|_| false).is_none());
/// ```
pub fn thickest(is_within: impl Fn(&Length) -> bool) -> Option<Length> {
    const STEPS: u32 = 10_000;
    let at = |step: u32| Length::of_metres(f64::from(step) / f64::from(STEPS));
    let (mut within, mut beyond) = (1, STEPS);
    if !is_within(&at(within)) {
        return None;
    }
    while beyond - within > 1 {
        let middle = u32::midpoint(within, beyond);
        if is_within(&at(middle)) { within = middle } else { beyond = middle }
    }
    Some(at(within))
}

/// The recommended weight limit of a lift, in pounds or kilograms by the unit set.
///
/// ```
/// use hostwood::{quantity::Units, record::farm::Grip, reckon::lifting::{Hands, Lift, Stretch, limit}};
/// let rail = Lift {
///     from: Hands::at(5.0, 5.0, Units::Us), to: Hands::at(30.0, 5.0, Units::Us), with_care: true,
///     twist: 0.0, a_minute: 1.0, stretch: Stretch::Short, grip: Grip::Poor,
/// };
/// let limit = limit(&rail, Units::Us);
/// assert!((limit.begins.limit - 25.0).abs() < 0.05); // a 5 in log from the ground to a rail: 25.0 lb
/// assert!((limit.ends.unwrap().limit - 36.7).abs() < 0.05);
/// ```
pub fn limit(lift: &Lift, units: Units) -> Limit {
    let end = |hands: Hands| end(lift, hands, units);
    Limit { begins: end(lift.from), ends: lift.with_care.then(|| end(lift.to)) }
}

fn end(lift: &Lift, hands: Hands, units: Units) -> End {
    let set = set(units);
    let high = |hands: Hands| hands.height >= set.knuckles;
    let reach = match hands.reach {
        reach if reach > set.reach[1] => 0.0,
        reach => set.reach[0] / reach.max(set.reach[0]),
    };
    let height = match hands.height {
        height if !(0.0..=set.highest).contains(&height) => 0.0,
        height => 1.0 - set.slope * (height - set.knuckles).abs(),
    };
    let way = match (lift.to.height - lift.from.height).abs() {
        way if way > set.way[1] => 0.0,
        way => 0.82 + set.gain / way.max(set.way[0]),
    };
    let twist = if lift.twist > 135.0 { 0.0 } else { 1.0 - 0.0032 * lift.twist };
    let frequency = frequency(lift.a_minute, lift.stretch, high(lift.from));
    let grip = match (lift.grip, high(hands)) {
        (Grip::Good, _) | (Grip::Fair, true) => 1.0,
        (Grip::Fair, false) => 0.95,
        (Grip::Poor, _) => 0.90,
    };
    let limit = set.load * reach * height * way * twist * frequency * grip;
    End { reach, height, way, twist, frequency, grip, limit }
}

/// The frequency multiplier: straight lines between the rows of table 5.
///
/// ```
/// use hostwood::reckon::lifting::{Stretch, frequency};
/// assert!((frequency(2.4, Stretch::Moderate, false) - 0.820).abs() < 5e-4); // edge vector: 2.4 a minute, up to 2 h, low
/// assert_eq!(frequency(9.0, Stretch::Long, false), 0.0);
/// ```
pub fn frequency(a_minute: f64, stretch: Stretch, high: bool) -> f64 {
    let column = stretch.column() + usize::from(high);
    let at = a_minute.max(FREQUENCY[0].0);
    let Some(above) = FREQUENCY.iter().position(|(rate, _)| at <= *rate) else { return 0.0 };
    let (rate, multipliers) = &FREQUENCY[above];
    if at >= *rate || above == 0 {
        return multipliers[column];
    }
    let (rate_below, below) = &FREQUENCY[above - 1];
    match multipliers[column] {
        0.0 => 0.0,
        here => below[column] + (here - below[column]) * (at - rate_below) / (rate - rate_below),
    }
}

/// Why the equation does not reach a kind of work.
pub const fn outside(what: Outside) -> Gap {
    Gap::Outside(match what {
        Outside::OneHanded => "the lifting equation does not reach lifts with one hand",
        Outside::SeatedOrKneeling => "the lifting equation does not reach lifts made seated or kneeling",
        Outside::Cramped => "the lifting equation does not reach lifts in a cramped place",
        Outside::ShiftingLoad => "the lifting equation does not reach loads that shift",
        Outside::Carrying => "the lifting equation does not reach carrying, pushing or pulling",
        Outside::BarrowOrShovel => "the lifting equation does not reach work with a barrow or a shovel",
        Outside::Fast => "the lifting equation does not reach fast lifts and tossing",
        Outside::SlipperyGround => "the lifting equation does not reach wet, muddy or icy ground",
        Outside::HotOrCold => "the lifting equation does not reach work in heat or cold",
        Outside::Shared => "the lifting equation does not reach lifts shared by two people",
    })
}

/// What to do about a lifting index; it never says that a lift is without danger.
pub fn advice(Index(index): Index) -> &'static str {
    match index {
        index if index <= 1.0 => "within the limit on dry, level ground in mild weather",
        index if index <= 3.0 => "above the limit: cut shorter or thinner logs, start from a bench, or use a cart",
        _ => "far above the limit: not by hand; cut it shorter, or use a cart, a ramp or a hoist",
    }
}
