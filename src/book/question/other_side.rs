//! A latitude or a longitude whose sign the country does not have.
//!
//! Which countries lie wholly south of the equator or west of Greenwich, and which have land on both sides, is read from
//! the boundaries of Natural Earth at 1:10,000,000 (public domain), in which a country counts with its overseas parts. From
//! memory: the parts of countries; São Tomé, whose southernmost islet lies on the equator; American Samoa, which is a part
//! of the United States by ISO 3166-2. Bouvet Island has a code of its own, and nobody lives there.

use super::Odd;
use crate::book::Book;
use crate::book::lay::Pile;
use crate::quantity::Code;

/// On which side of the equator or of Greenwich a place lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    /// Where degrees are positive.
    Plus,
    /// Where they are negative.
    Minus,
    /// On both sides, or not known; such a place is never asked about.
    Both,
}

use Side::{Both, Minus, Plus};

/// Places by their side: a code, or a code and a hyphen for all parts of a country. The longest that fits a place holds; a
/// place that is not listed lies where degrees are positive.
type Sides = [(Side, &'static str)];

/// South of the equator are those of `Minus`.
const LATITUDE: &Sides = &[
    (
        Minus,
        "AO AQ AR AS AU BI BO BV BW CC CK CL CX FJ FK GS HM IO KM LS MG MU MW MZ NA NC NF NR NU NZ PE PF PG PN PY RE \
         RW SB SC SH SZ TF TK TL TO TV TZ UY VU WF WS YT ZA ZM ZW",
    ),
    (Both, "BR CD CG CO EC FR GA GQ ID KE KI MV SO ST UG UM US"),
    (Minus, "BR-"),
    (Both, "BR-AM BR-AP BR-PA BR-PE BR-RR"),
    (Plus, "FR-ARA FR-BFC FR-BRE FR-CVL FR-GES FR-HDF FR-IDF FR-NAQ FR-NOR FR-OCC FR-PAC FR-PDL FR-20R"),
    (Plus, "US-"),
    (Minus, "US-AS"),
    (Both, "US-UM"),
];

/// West of Greenwich are those of `Minus`, as far as the line of 180 degrees.
const LONGITUDE: &Sides = &[
    (
        Minus,
        "AG AI AR AS AW BB BL BM BO BQ BR BS BZ CA CI CK CL CO CR CU CV CW DM DO EC EH FK FO GD GF GG GI GL GM GN GP GS \
         GT GW GY HN HT IE IM IS JE JM KN KY LC LR MA MF MQ MR MS MX NI NU PA PE PF PM PN PR PT PY SH SL SN SR SV SX TC \
         TK TO TT UY VC VE VG VI WF WS",
    ),
    (Both, "AQ BF DZ ES FJ FR GB GH KI ML NL NO NZ RU SJ TG UM US"),
    (Minus, "ES-AN ES-AS ES-CB ES-CE ES-CL ES-CM ES-CN ES-EX ES-GA ES-MC ES-MD ES-ML ES-NC ES-PV ES-RI"),
    (Plus, "ES-CT ES-IB"),
    (Plus, "FR-ARA FR-BFC FR-GES FR-HDF FR-IDF FR-PAC FR-20R"),
    (Minus, "FR-BRE GB-NIR GB-SCT GB-WLS"),
    (Plus, "NL- NO- NZ- RU-"),
    (Minus, "NL-AW NL-BQ1 NL-BQ2 NL-BQ3 NL-CW NL-SX NO-22 NZ-CIT"),
    (Both, "RU-CHU"),
    (Minus, "US-"),
    (Plus, "US-GU US-MP"),
    (Both, "US-AK US-UM"),
];

/// Asks about the sign of the farm's latitude and longitude.
pub(super) fn ask(book: &Book, pile: &Pile) -> Vec<Odd> {
    let place = pile.farm().and_then(|farm| farm.get("place"));
    let (Some(place), Some(code), Some(here)) = (place, &book.here.code, book.here.name()) else {
        return Vec::new();
    };
    let at = &book.farm.record.place;
    let axes = [
        ("latitude", at.latitude, LATITUDE, "the equator", ["north", "south"]),
        ("longitude", at.longitude, LONGITUDE, "Greenwich", ["east", "west"]),
    ];
    let odd = axes.into_iter().filter(|(_, degrees, sides, ..)| is_across(*degrees, sides, code));
    let odd = odd.map(|(key, degrees, _, line, [plus, minus])| {
        let (lies, wanted) = if degrees > 0.0 { (plus, minus) } else { (minus, plus) };
        Odd::of_farm(
            place.place_of(key),
            format!("{key} {degrees} lies {lies} of {line}, and all of {here} lies {wanted} of it"),
            format!("write `{key}: {}`", -degrees),
        )
    });
    odd.collect()
}

/// Whether the farm's latitude is one that its country does not have.
pub(super) fn is_latitude_odd(book: &Book) -> bool {
    book.here.code.as_ref().is_some_and(|code| is_across(book.farm.record.place.latitude, LATITUDE, code))
}

fn is_across(degrees: f64, sides: &Sides, code: &Code) -> bool {
    match side(sides, &code.written()) {
        Plus => degrees < 0.0,
        Minus => degrees > 0.0,
        Both => false,
    }
}

fn side(sides: &Sides, code: &str) -> Side {
    let listed = sides.iter().flat_map(|(side, codes)| codes.split_whitespace().map(move |listed| (listed, *side)));
    let fits = listed.filter(|(listed, _)| code.starts_with(listed));
    fits.max_by_key(|(listed, _)| listed.len()).map_or(Plus, |(_, side)| side)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn every_listed_code_is_one_and_stands_once() {
        for sides in [LATITUDE, LONGITUDE] {
            let mut seen = BTreeSet::new();
            for listed in sides.iter().flat_map(|(_, codes)| codes.split_whitespace()) {
                assert!(Code::read(listed.trim_end_matches('-')).is_ok(), "{listed}");
                assert!(seen.insert(listed), "{listed} stands twice");
            }
        }
    }

    #[test]
    fn the_narrowest_place_decides() {
        let sides = |code| (side(LATITUDE, code), side(LONGITUDE, code));
        assert_eq!(sides("US"), (Both, Both));
        assert_eq!(sides("US-VT"), (Plus, Minus));
        assert_eq!(sides("US-AK"), (Plus, Both));
        assert_eq!(sides("US-GU"), (Plus, Plus));
        assert_eq!(sides("AU-TAS"), (Minus, Plus));
        assert_eq!(sides("NZ-CIT"), (Minus, Minus));
        assert_eq!(sides("BR-SP"), (Minus, Minus));
        assert_eq!(sides("GB-ENG"), (Plus, Both));
        assert_eq!(sides("NO-22"), (Plus, Minus));
        assert_eq!(sides("JP"), (Plus, Plus));
    }
}
