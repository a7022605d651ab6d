//! The drawings, as SVG from plain values.
//!
//! | figure | file |
//! |---|---|
//! | the end grain of a rating | [`ring`] |
//! | the band of a caution | [`saw`] |
//! | an axis with round steps | [`axis`] |
//! | what came in and where it is | [`balance`] |
//! | bars before and after | [`bars`] |
//! | the hatches of every drawing | [`hatch`] |
//! | the life of a batch | [`life`] |
//! | what logs weigh beside what one person may lift | [`load`] |
//! | a log with its holes, to scale | [`log`] |
//! | the map of a stand | [`map`] |
//! | logs seen at their end, with their weights | [`sections`] |
//! | what several sources say of one quantity | [`spread`] |
//! | the strip of the year | [`strip`] |
//! | the parts of SVG | [`svg`] |
//! | how sources rate a pair | [`tally`] |

pub mod axis;
pub mod balance;
pub mod bars;
pub mod hatch;
pub mod life;
pub mod load;
pub mod log;
pub mod map;
pub mod ring;
pub mod saw;
pub mod sections;
pub mod spread;
pub mod strip;
pub mod svg;
pub mod tally;

/// What drawings share, kind by kind, to stand once on a page: they show it by its ids.
pub fn defs(first_month: i8) -> [String; 5] {
    [ring::defs(), saw::defs(), hatch::defs(), strip::defs(first_month), tally::defs()]
}

/// Those of what drawings share to which a page refers.
pub fn used(defs: &[String], page: &str) -> String {
    let shown = |id: &str| page.contains(&format!("#{id}\"")) || page.contains(&format!("#{id})"));
    let ids = |shared: &str| shared.split(" id=\"").skip(1).filter_map(|part| part.split('"').next()).any(shown);
    defs.iter().filter(|shared| ids(shared)).map(String::as_str).collect()
}
