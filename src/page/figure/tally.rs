//! How sources rate a pair: four steps from 0 to 3 with a tick a voice, solid where it speaks of the wood itself, hollow
//! where it speaks of its genus, and with a foot where this farm's own logs speak. Disagreement is seen before it is read.

use super::svg::{at, path, shared};

/// Of what a voice speaks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// Of the wood itself.
    Wood,
    /// Of its genus, or of the mushroom's.
    Genus,
    /// Of logs of this farm.
    Ours,
}

/// The id of what all tallies show: the four steps with their numbers.
const STEPS: &str = "votes-steps";
const STEP: f64 = 28.0;
const LONG: f64 = 24.0;
const WIDE: f64 = 4.0 * STEP;
const HEIGHT: f64 = 29.0;
const BASE: f64 = 15.0;

/// The drawing of what every tally shows.
pub fn defs() -> String {
    let step = |rating: u8| {
        let left = f64::from(rating) * STEP;
        let line = path("votes-line", &format!("M{} {BASE}h{LONG}", at(left)));
        line + &format!(r#"<text class="votes-n" x="{}" y="27">{rating}</text>"#, at(left + LONG / 2.0))
    };
    let steps: String = (0..=3).map(step).collect();
    shared("defs", &format!(r#"<g id="{STEPS}">{steps}</g>"#))
}

/// Draws the voices, each by its rating, 0 to 3; its counts in words must stand beside it.
pub fn svg(voices: &[(u8, Of)]) -> String {
    if voices.is_empty() {
        return String::new();
    }
    let kinds = [(Of::Wood, "votes-of"), (Of::Genus, "votes-by"), (Of::Ours, "votes-own")];
    let ticks: String = kinds.into_iter().map(|(of, class)| ticks(voices, of, class)).collect();
    format!(
        r##"<svg class="votes" viewBox="0 0 {WIDE} {HEIGHT}" aria-hidden="true"><use href="#{STEPS}"/>{ticks}</svg>"##
    )
}

/// The ticks of one kind, placed among all of their step.
fn ticks(voices: &[(u8, Of)], of: Of, class: &str) -> String {
    let tick = |x: f64| format!("M{} {}v-11", at(x), at(BASE - 1.5));
    let ways: Vec<String> = (0..=3).flat_map(|rating| places(voices, rating, of)).map(tick).collect();
    if ways.is_empty() { String::new() } else { path(class, &ways.concat()) }
}

/// Where the ticks of one kind stand on a step: ours first, then those of the wood, then those of its genus.
fn places(voices: &[(u8, Of)], rating: u8, of: Of) -> Vec<f64> {
    let order = [Of::Ours, Of::Wood, Of::Genus];
    let number = |kind: Of| voices.iter().filter(|voice| **voice == (rating, kind)).count();
    let all: usize = order.into_iter().map(number).sum();
    let before: usize = order.into_iter().take_while(|kind| *kind != of).map(number).sum();
    let apart = (LONG / all.max(1) as f64).min(5.0);
    let left = f64::from(rating) * STEP + (LONG - apart * all.saturating_sub(1) as f64) / 2.0;
    (before..before + number(of)).map(|place| left + apart * place as f64).collect()
}
