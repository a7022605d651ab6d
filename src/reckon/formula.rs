//! A formula as a constant beside its function, and the figures that it makes.
//!
//! A [`Figure`] carries what was put in, what came out and the formula between them, so that the cell of a table, the figure
//! on a page and the line of its working print one number.

use std::borrow::Cow;

use super::{Gap, Topic};
use crate::quantity::{Units, Value};
use crate::record::said::Mark;
use crate::record::{Kind, Link};

/// A formula.
#[derive(Debug, PartialEq, Eq)]
pub struct Formula {
    /// What it reckons.
    pub name: &'static str,
    /// The formula in `MathML`.
    pub math: &'static str,
    /// The formula in words.
    pub words: &'static str,
    /// Each symbol with its meaning and unit.
    pub symbols: &'static [(&'static str, &'static str)],
    /// The ids of its sources in the handbook, each with how it came here.
    pub sources: &'static [(&'static str, Mark)],
    /// What its sources do not say, and whose that is.
    pub own: &'static str,
}

/// Where the working of a figure stands: a topic, and the name of a block on its page, or on that of a batch or of the trees of a stand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// The topic.
    pub topic: Topic,
    /// The name of the block.
    pub block: Cow<'static, str>,
    /// The batch or the tree that it is about, where it is about one.
    pub about: Option<Link>,
}

impl Place {
    /// A block by its name.
    ///
    /// ```
    /// use hostwood::reckon::{Topic, formula::Place};
    /// assert_eq!(Place::new(Topic::Weights, "red-oak").block, "red-oak");
    /// ```
    pub fn new(topic: Topic, block: impl Into<Cow<'static, str>>) -> Self {
        Self { topic, block: block.into(), about: None }
    }

    /// A block about one batch.
    pub fn of_batch(batch: &str, topic: Topic, block: impl Into<Cow<'static, str>>) -> Self {
        Self { about: Some(Link::to(Kind::Batch, batch)), ..Self::new(topic, block) }
    }

    /// The block of what may come out of a stand.
    pub fn limit(stand: &str) -> Self {
        Self::new(Topic::Allocation, format!("stand-{stand}"))
    }

    /// The block of a tagged tree; no two tags share one.
    ///
    /// ```
    /// use hostwood::reckon::formula::Place;
    /// assert_eq!(Place::tree("B12").block, "tree-B12");
    /// assert_ne!(Place::tree("Ä1"), Place::tree("Ö1"));
    /// ```
    pub fn tree(tag: &str) -> Self {
        let block = tag.chars().fold("tree-".to_owned(), |block, c| match c {
            c if c.is_ascii_alphanumeric() || c == '-' => format!("{block}{c}"),
            c => format!("{block}_{:x}_", u32::from(c)),
        });
        Self { about: Some(Link::to(Kind::Tree, tag)), ..Self::new(Topic::Trees, block) }
    }
}

/// A result with all that it was made from.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure<T> {
    /// The formula.
    pub formula: &'static Formula,
    /// Where its working stands.
    pub place: Place,
    /// What was put in: symbols and their values.
    pub put: Vec<(&'static str, Value)>,
    /// What stands for the result.
    pub symbol: &'static str,
    /// The result, or why there is none.
    pub result: Result<T, Gap>,
}

impl Formula {
    /// The figure that this formula makes of what is put in.
    ///
    /// ```
    /// use hostwood::{quantity::{Mass, Units}, reckon::{Topic, formula::Place, moisture::{MOISTURE, lost}}};
    /// let [then, now] = ["35 lb", "29 lb"].map(|text| Mass::read(text).unwrap());
    /// let put = vec![("m₀", (&then).into()), ("m", (&now).into())];
    /// let figure = MOISTURE.figure(&Place::new(Topic::Moisture, "b1"), put, "loss", Ok(lost(&then, &now)));
    /// assert_eq!(figure.numbers(Units::Us), "m₀ = 35 lb, m = 29 lb, so loss = 17.1 %"); // WE-11
    /// ```
    pub fn figure<T>(
        &'static self,
        place: &Place,
        put: Vec<(&'static str, Value)>,
        symbol: &'static str,
        result: Result<T, Gap>,
    ) -> Figure<T> {
        Figure { formula: self, place: place.clone(), put, symbol, result }
    }
}

impl<T: Clone + Into<Value>> Figure<T> {
    /// The result as a value.
    ///
    /// # Errors
    ///
    /// The [`Gap`] that stands in its place.
    pub fn value(&self) -> Result<Value, Gap> {
        self.result.clone().map(Into::into)
    }

    /// What was put in for a symbol.
    pub fn input(&self, symbol: &str) -> Option<&Value> {
        self.put.iter().find_map(|(other, value)| (*other == symbol).then_some(value))
    }

    /// The result as pages print it, or why there is none.
    pub fn show(&self, units: Units) -> String {
        self.value().map_or_else(|gap| gap.to_string(), |value| value.show(units))
    }

    /// The numbers put in and what they come to.
    pub fn numbers(&self, units: Units) -> String {
        let put: Vec<String> =
            self.put.iter().map(|(symbol, value)| format!("{symbol} = {}", value.show(units))).collect();
        let made = match self.value() {
            Ok(value) => format!("{} = {}", self.symbol, value.show(units)),
            Err(gap) => gap.to_string(),
        };
        if put.is_empty() { made } else { format!("{}, so {made}", put.join(", ")) }
    }
}
