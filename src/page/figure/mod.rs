//! The drawings, as SVG from plain values.
//!
//! | figure | file |
//! |---|---|
//! | the end grain of a rating | [`ring`] |
//! | the band of a caution | [`saw`] |
//! | bars before and after | [`bars`] |
//! | the map of a stand | [`map`] |
//! | the strip of the year | [`strip`] |
//! | the parts of SVG | [`svg`] |

pub mod bars;
pub mod life;
pub mod map;
pub mod ring;
pub mod saw;
pub mod strip;
pub mod svg;
