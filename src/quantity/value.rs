//! A value of any kind: what a cell of a table, a figure of a page and a line of a working hold alike.

use uom::si::f64 as si;
use uom::si::mass_density::{kilogram_per_cubic_meter, pound_per_cubic_foot};
use uom::si::volume::{cubic_meter, liter};

use super::measure::{CUBIC_METRES_A_CUBIC_FOOT, rounded};
use super::{Area, BasalArea, Date, Duration, Length, Mass, Percent, Temperature, TemperatureStep, Units};

/// A text, a number or a quantity that knows how it is printed.
///
/// ```
/// use hostwood::quantity::{Length, Mass, Units, Value};
/// let log = Value::from(Mass::of_pounds(26.84));
/// assert_eq!([log.show(Units::Us), log.show(Units::Metric)], ["26.8 lb", "12.2 kg"]);
/// assert_eq!(Value::from(Length::of_inches(5.0)).number(Units::Metric), Some(12.7)); // cm
/// assert_eq!(Value::part(0.8314, 1).show(Units::Us), "83.1 %");
/// ```
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Words.
    Text(String),
    /// So many.
    Count(u64),
    /// A number without a unit, and the decimals that it is printed with at most.
    Number(f64, usize),
    /// A number of per cent, and the decimals that it is printed with at most.
    Percent(f64, usize),
    /// A length whose bare number is of inches or centimetres.
    Length(Length),
    /// A length whose bare number is of feet or metres, such as a tree's.
    Height(Length),
    /// A weight.
    Mass(Mass),
    /// A weight as a kitchen scale gives it.
    Fine(Mass),
    /// A weight by volume.
    Density(si::MassDensity),
    /// A temperature.
    Temperature(Temperature),
    /// A difference of temperatures, or a sum of degree-days.
    Step(TemperatureStep),
    /// A volume.
    Volume(si::Volume),
    /// An area.
    Area(Area),
    /// A basal area.
    BasalArea(BasalArea),
    /// A stretch of time.
    Time(Duration),
    /// A calendar date.
    Date(Date),
    /// Yes or no.
    Flag(bool),
}

impl Value {
    /// A part of one, in per cent with at most so many decimals.
    pub fn part(of_one: f64, decimals: usize) -> Self {
        Self::Percent(of_one * 100.0, decimals)
    }

    /// The value as it is printed, with its unit.
    pub fn show(&self, units: Units) -> String {
        match self {
            Self::Text(text) => text.clone(),
            Self::Count(count) => count.to_string(),
            Self::Number(number, decimals) => rounded(*number, *decimals),
            Self::Percent(percent, decimals) => format!("{} %", rounded(*percent, *decimals)),
            Self::Length(length) | Self::Height(length) => length.show(units),
            Self::Mass(mass) => mass.show(units),
            Self::Fine(mass) => mass.finely(units),
            Self::Density(density) => units.density(*density),
            Self::Temperature(temperature) => temperature.show(units),
            Self::Step(step) => step.show(units),
            Self::Volume(volume) => units.volume(volume.get::<cubic_meter>()),
            Self::Area(area) => area.show(units),
            Self::BasalArea(area) => area.show(units),
            Self::Time(time) => time.show(units),
            Self::Date(date) => date.show(units),
            Self::Flag(true) => "yes".to_owned(),
            Self::Flag(false) => "no".to_owned(),
        }
    }

    /// The bare number, for a column whose name says the unit; none for what is not a number.
    ///
    /// A length is in inches or centimetres, a height in feet or metres, a weight in pounds or kilograms, a temperature
    /// in degrees Fahrenheit or Celsius, a volume in cubic feet or litres, an area in square feet or square metres, a
    /// basal area in square feet an acre or square metres a hectare, a time in days, a share in per cent.
    pub fn number(&self, units: Units) -> Option<f64> {
        let [us, metric] = match self {
            Self::Text(_) | Self::Date(_) | Self::Flag(_) => return None,
            Self::Count(count) => return Some(*count as f64),
            Self::Number(number, _) | Self::Percent(number, _) => return Some(*number),
            Self::Time(time) => return Some(time.days()),
            Self::Length(length) => return Some(length.number(units)),
            Self::Height(height) => [height.feet(), height.base()],
            Self::Mass(mass) | Self::Fine(mass) => [mass.pounds(), mass.base()],
            Self::Density(density) => {
                [density.get::<pound_per_cubic_foot>(), density.get::<kilogram_per_cubic_meter>()]
            }
            Self::Temperature(temperature) => [temperature.fahrenheit(), temperature.celsius()],
            Self::Step(step) => [step.fahrenheit(), step.celsius()],
            Self::Volume(volume) => [volume.get::<cubic_meter>() / CUBIC_METRES_A_CUBIC_FOOT, volume.get::<liter>()],
            Self::Area(area) => [area.square_feet(), area.base()],
            Self::BasalArea(area) => [area.square_feet_an_acre(), area.square_metres_a_hectare()],
        };
        Some(units.pick(us, metric))
    }
}

macro_rules! values {
    ($($from:ty => $to:expr;)+) => {
        $(impl From<$from> for Value {
            fn from(value: $from) -> Self {
                $to(value)
            }
        })+
    };
}

values! {
    String => Self::Text;
    &str => |text: &str| Self::Text(text.to_owned());
    (f64, usize) => |(number, decimals)| Self::Number(number, decimals);
    u32 => |count| Self::Count(u64::from(count));
    usize => |count| Self::Count(count as u64);
    Percent => |share: Percent| Self::Percent(share.base(), 1);
    Length => Self::Length;
    Mass => Self::Mass;
    Temperature => Self::Temperature;
    TemperatureStep => Self::Step;
    si::Volume => Self::Volume;
    si::MassDensity => Self::Density;
    Area => Self::Area;
    BasalArea => Self::BasalArea;
    Duration => Self::Time;
    Date => Self::Date;
    bool => Self::Flag;
}

impl<T: Clone + Into<Value>> From<&T> for Value {
    fn from(value: &T) -> Self {
        value.clone().into()
    }
}
