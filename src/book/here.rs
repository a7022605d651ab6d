//! Where the farm lies: what holds there, and the words that turn with the place.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use serde_json::Value;

use super::{Listed, Register};
use crate::quantity::date::month_name;
use crate::quantity::spoken::spoken;
use crate::quantity::{Code, Date, DayOfYear, TemperatureStep, Units};
use crate::record::Id;
use crate::record::farm::Place;
use crate::record::holds::{Ask, Holds};
use crate::record::region::{Half, Help, Region};

/// What is printed where a number or a word is not known, to be filled in by hand.
pub const BLANK: &str = "____";

/// The place of the farm among the regions.
#[derive(Debug, Clone)]
pub struct Here {
    /// The country, or the part of one, where the farm has said it.
    pub code: Option<Code>,
    /// The half of the globe.
    pub half: Half,
    /// The units of the edition.
    units: Units,
    /// The ids of the regions in which the farm lies, the narrowest first.
    around: Vec<String>,
    regions: BTreeMap<String, Region>,
}

impl Here {
    /// The place of a farm.
    pub(super) fn of(place: Option<&Place>, units: Units, regions: &Register<Listed<Region>>) -> Self {
        let code = place.and_then(|place| place.code.clone());
        let half = Half::of(place.map_or(0.0, |place| place.latitude));
        let regions = regions.iter().map(|(id, region)| (id.clone(), region.record.clone())).collect();
        Self::at(code, half, units, regions)
    }

    fn at(code: Option<Code>, half: Half, units: Units, regions: BTreeMap<String, Region>) -> Self {
        let mut around: Vec<(Reverse<usize>, usize, String)> = regions
            .iter()
            .filter_map(|(id, region)| {
                Some((Reverse(narrowness(region, code.as_ref(), Some(half))?), region.codes.len(), id.clone()))
            })
            .collect();
        around.sort();
        Self { around: around.into_iter().map(|(_, _, id)| id).collect(), code, half, units, regions }
    }

    /// The place at which a record speaks: the farm's, or that of a record which holds elsewhere, whose words are its own.
    pub(super) fn of_record(&self, holds_in: &[&str]) -> Option<Self> {
        let elsewhere = !holds_in.iter().any(|region| self.is_in(region));
        let code = self.codes(holds_in.first().filter(|_| elsewhere)?).into_iter().next();
        Some(Self::at(code, self.half, self.units, self.regions.clone()))
    }

    /// The regions in which the farm lies, the narrowest first.
    fn around(&self) -> impl Iterator<Item = &Region> {
        self.around.iter().filter_map(|id| self.regions.get(id))
    }

    /// Whether a record holds at the farm.
    pub fn holds(&self, holds: &Holds) -> bool {
        let is_in = |regions: &[Id<Region>]| regions.iter().any(|region| self.is_in(region.as_str()));
        (holds.holds_in.is_empty() || is_in(&holds.holds_in)) && !is_in(&holds.not_in)
    }

    /// How near a region is: by the letters of the code of the narrowest region around the farm that holds it.
    pub fn nearness(&self, region: &str) -> usize {
        let (code, half) = (self.codes(region).into_iter().next(), self.half_of(region));
        self.around().filter_map(|around| narrowness(around, code.as_ref(), half)).max().unwrap_or(0)
    }

    /// The half of the globe in which a region lies, where it or a wider one says so.
    pub fn half_of(&self, region: &str) -> Option<Half> {
        let own = self.regions.get(region).and_then(|region| region.half);
        let code = self.codes(region).into_iter().next();
        let lies_in = |wider: &Code| code.as_ref().is_some_and(|code| code.lies_in(wider));
        let holds = |wider: &&Region| wider.codes.iter().any(lies_in);
        own.or_else(|| self.regions.values().filter(holds).find_map(|wider| wider.half))
    }

    /// Whether the farm lies in a region, or in the place of a code.
    pub fn is_in(&self, region: &str) -> bool {
        let Some(code) = &self.code else { return false };
        self.codes(region).iter().any(|wider| code.lies_in(wider))
    }

    /// The codes of a region; that of a place itself.
    fn codes(&self, region: &str) -> Vec<Code> {
        match self.regions.get(region) {
            Some(region) => region.codes.clone(),
            None => Code::read(region).into_iter().collect(),
        }
    }

    /// What the place of the farm is called, where it has said it.
    pub fn name(&self) -> Option<String> {
        self.code.as_ref().map(|code| self.name_of(&code.written()))
    }

    /// What a region or the place of a code is called inside a sentence.
    pub fn name_of(&self, region: &str) -> String {
        if let Some(region) = self.regions.get(region) {
            return region.name.clone();
        }
        let Ok(code) = Code::read(region) else { return region.to_owned() };
        let alone = |region: &Region| (region.codes.as_slice() == [code.clone()]).then(|| region.name.clone());
        self.regions.values().find_map(alone).unwrap_or_else(|| code.name())
    }

    /// Whom one asks here.
    pub fn office(&self, ask: Ask) -> String {
        self.word(ask.id()).unwrap_or(BLANK).to_owned()
    }

    /// The numbers for an emergency here, where they are known.
    pub fn emergency(&self) -> Option<&Help> {
        self.around().find_map(|region| region.emergency.as_ref())
    }

    /// Whom one calls here when somebody has eaten a doubtful mushroom, where that is known.
    pub fn poison(&self) -> Option<&Help> {
        self.around().find_map(|region| region.poison.as_ref())
    }

    /// Whether the handbook's look-alikes are those that grow here; where the farm lies nobody knows, they are held for it.
    pub fn knows_look_alikes(&self) -> bool {
        self.around().any(|region| region.look_alikes)
    }

    /// The word that turns with the place.
    pub fn word(&self, key: &str) -> Option<&str> {
        self.around().find_map(|region| region.words.get(key)).map(String::as_str)
    }

    /// A text with its words turned for the place. Braces that hold no such word stay as they are.
    pub fn speak(&self, text: &str) -> String {
        let mut spoken = String::with_capacity(text.len());
        let mut rest = text;
        while let Some((before, after)) = rest.split_once('{') {
            spoken.push_str(before);
            let word = after.split_once('}').and_then(|(key, after)| Some((self.turned(key)?, after)));
            let (word, after) = word.unwrap_or_else(|| ("{".to_owned(), after));
            spoken.push_str(&word);
            rest = after;
        }
        spoken + rest
    }

    fn turned(&self, key: &str) -> Option<String> {
        let number = |help: Option<&Help>| match help {
            Some(help) if help.numbers.is_empty() => help.says.clone().unwrap_or_else(|| BLANK.to_owned()),
            Some(help) => help.numbers.join(" or "),
            None => BLANK.to_owned(),
        };
        match key {
            "emergency" => Some(number(self.emergency())),
            "poison" => Some(number(self.poison())),
            _ => match key.split_once(": ") {
                Some(("months", months)) => Some(self.months(months.trim())),
                Some(("date", date)) => self.date(date.trim()),
                Some(("step", step)) => self.step(step.trim()),
                _ => self.word(key).map(str::to_owned).or_else(|| spoken(key, self.units)),
            },
        }
    }

    /// A date, or a date of the year, as the edition writes it.
    fn date(&self, text: &str) -> Option<String> {
        let of_year = || Some(DayOfYear::read(text).ok()?.show(self.units));
        Date::read(text).map(|date| date.show(self.units)).ok().or_else(of_year)
    }

    /// How much warmer or colder, in the units of the edition with the source's own behind it in brackets.
    fn step(&self, text: &str) -> Option<String> {
        let step = TemperatureStep::read(text).ok()?;
        let said = |units: Units| format!("{} {}", step.whole(units), units.pick("°F", "°C"));
        let own = if text.ends_with('F') { Units::Us } else { Units::Metric };
        let here = said(self.units);
        Some(if own == self.units { here } else { format!("{here} ({})", said(own)) })
    }

    /// Months that a source of the northern half names, moved by half a year where the farm lies in the south.
    fn months(&self, text: &str) -> String {
        if self.half != Half::South {
            return text.to_owned();
        }
        let moved = text.split_inclusive(|c: char| !c.is_alphabetic()).map(|piece| {
            let word = piece.trim_end_matches(|c: char| !c.is_alphabetic());
            let month = (1..=12).find(|month| month_name(*month) == word);
            month.map_or_else(|| piece.to_owned(), |month| piece.replacen(word, month_name((month + 5) % 12 + 1), 1))
        });
        format!("in the northern half {text}; here {}", moved.collect::<String>())
    }

    /// Every text of a record with its words turned for the place.
    pub(super) fn turn(&self, record: &mut Value) {
        match record {
            Value::String(text) if text.contains('{') => *text = self.speak(text),
            Value::Array(items) => items.iter_mut().for_each(|item| self.turn(item)),
            Value::Object(entries) => entries.values_mut().for_each(|value| self.turn(value)),
            _ => {}
        }
    }
}

/// How narrow a region is that holds a place, by the letters of its code; `None` where the place does not lie in it.
fn narrowness(region: &Region, code: Option<&Code>, half: Option<Half>) -> Option<usize> {
    if region.codes.is_empty() {
        return region.half.map_or(Some(0), |of| (Some(of) == half).then_some(1));
    }
    let wider = region.codes.iter().filter(|wider| code.is_some_and(|code| code.lies_in(wider)));
    wider.map(|wider| wider.written().len()).max()
}
