//! Places by their ISO 3166 codes: countries (part 1) and their parts (part 2).

use rust_iso3166::{ALL, from_alpha2, iso3166_2};

use super::as_text;
use crate::fault::Fault;

/// A country, or a part of one, written by ISO 3166 as `CL` or `US-VT`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Code(String);

impl Code {
    /// Reads a code.
    ///
    /// # Errors
    ///
    /// A [`Fault`] without a place, where no country and no part of one has such a code; it suggests the code of a country or
    /// part that is called so.
    ///
    /// ```
    /// use hostwood::quantity::Code;
    /// assert_eq!(Code::read("US-VT").unwrap().name(), "Vermont");
    /// assert!(Code::read("Vermont").unwrap_err().instead.unwrap().contains("`US-VT`"));
    /// ```
    pub fn read(text: &str) -> Result<Self, Fault> {
        let code = Self(text.to_owned());
        if code.found().is_some() {
            return Ok(code);
        }
        let fault = Fault::new("not-a-place", format!("`{text}` is no ISO 3166 code of a country or of a part of one"));
        Err(fault.instead(match meant(text) {
            Some(meant) => format!("write `{meant}`, if that is meant"),
            None => {
                "write the code of the country, or better of the state or province, such as `CL` or `US-VT`".to_owned()
            }
        }))
    }

    /// The code as the standard writes it.
    pub fn written(&self) -> String {
        self.0.clone()
    }

    /// What the place is called.
    pub fn name(&self) -> String {
        self.found().unwrap_or(&self.0).to_owned()
    }

    /// Whether the place is a wider one or lies in it.
    ///
    /// ```
    /// use hostwood::quantity::Code;
    /// let code = |text| Code::read(text).unwrap();
    /// assert!(code("US-VT").lies_in(&code("US")));
    /// assert!(!code("US").lies_in(&code("US-VT")));
    /// ```
    pub fn lies_in(&self, wider: &Self) -> bool {
        self.0.strip_prefix(&wider.0).is_some_and(|rest| rest.is_empty() || rest.starts_with('-'))
    }

    /// Whether it names a whole country.
    pub fn is_country(&self) -> bool {
        !self.0.contains('-')
    }

    fn found(&self) -> Option<&'static str> {
        if self.is_country() {
            from_alpha2(&self.0).filter(|country| country.alpha2 == self.0).map(|country| country.name)
        } else {
            iso3166_2::from_code(&self.0).filter(|part| part.code == self.0).map(|part| part.name)
        }
    }
}

/// The code of what a text names in other letters, or by the name that people use.
fn meant(text: &str) -> Option<String> {
    let upper = text.to_uppercase().replace(['_', ' '], "-");
    // The kingdom has a code that people expect and the standard only keeps free for it.
    let upper = if upper == "UK" { "GB".to_owned() } else { upper };
    let code = Code(upper);
    if code.found().is_some() {
        return Some(code.0);
    }
    let called = |name: &str| name.eq_ignore_ascii_case(text);
    let country = || ALL.iter().find(|country| called(country.name)).map(|country| country.alpha2.to_owned());
    let mut parts: Vec<&str> =
        iso3166_2::SUBDIVISION_MAP.values().filter(|part| called(part.name)).map(|part| part.code).collect();
    parts.sort_unstable();
    country().or_else(|| parts.first().map(|&code| code.to_owned()))
}

as_text!(Code, "place-code", "US-VT", |_| 0.0);
