//! The growth of trees against what trials published, and the winter of the last tree reckoned once more.
//!
//! Each number of a trial is as its abstract gives it, read in somebody's copy; no abstract gives the site or the trees
//! around, so that what was published is held to the range that the pages tell: poor to good ground, free to hemmed in.

use std::fmt::Write;
use std::fs;
use std::sync::Arc;

use hostwood::book;
use hostwood::book::Book;
use hostwood::read::folder;
use hostwood::reckon::Findings;
use hostwood::reckon::findings::Choice;
use hostwood::reckon::growth::{Rate, SITES, a_year, between, in_years, last, thicker};
use proptest::prelude::*;

use crate::harness::{Farm, demo, root};

/// Basal area thick enough around a tree to take away all that neighbours can, in square feet an acre.
const HEMMED_IN: f64 = 200.0;

/// Square feet of basal area of a stem of one inch.
const INCH: f64 = std::f64::consts::PI / 576.0;

/// The published rate of a wood of the handbook.
fn rate(wood: &str) -> Rate {
    let book: &Book = &demo("sorrel-hollow").book;
    let growth = book.woods[wood].record.growth.as_ref().unwrap_or_else(|| panic!("{wood} has a rate"));
    Rate { site: growth.site, thickness: growth.thickness, crowding: growth.crowding }
}

/// What a tree gains in so many years on poor and on good ground.
fn gains(wood: &str, inches: f64, thicker: f64, years: u32) -> [f64; 2] {
    SITES.map(|site| in_years(&rate(wood), inches, site, thicker, years))
}

#[test]
fn cherries_grow_as_in_a_trial_of_released_crop_trees() {
    // Smith, Miller & Lamson 1994, NE-694, abstract: black cherry of 12.5 in, five years; given to a tenth of an inch.
    let rows = [("free to grow", 0.0, 1.0), ("not released", HEMMED_IN, 0.6)];
    let mut off = Vec::new();
    for (stands, thicker, published) in rows {
        let [poor, good] = gains("black-cherry", 12.5, thicker, 5);
        assert!(poor - 0.05 <= published && published <= good + 0.05, "{stands}: {poor:.2} to {good:.2}, {published}");
        off.push(f64::midpoint(poor, good) / published - 1.0);
    }
    assert!(off.iter().all(|off| off.abs() < 0.35) && (off.iter().sum::<f64>() / 2.0).abs() < 0.15, "off by {off:.2?}");
}

#[test]
fn release_gives_what_trials_of_release_gave() {
    // Growth of released trees over that of the others, as the abstracts give it; the model's ratio is the most that it
    // can be. The thickness in the third trial, poles, is ours.
    let rows = [
        ("Smith, Miller & Lamson 1994, diameter in 5 years", "black-cherry", 12.5, 5, 1.0 / 0.6),
        ("Ward 2002, diameter, trees followed for 6 years", "red-oak", 10.9, 6, 1.53),
        ("Ward 2002, diameter, trees followed for 6 years", "red-oak", 15.4, 6, 1.53),
        ("Schuler 2006, diameter in the tenth year: about twice", "red-oak", 8.0, 10, 2.0),
    ];
    for (source, wood, inches, years, published) in rows {
        let [free, hemmed] = [0.0, HEMMED_IN].map(|thicker| in_years(&rate(wood), inches, 60.0, thicker, years));
        let off = published / (free / hemmed) - 1.0;
        assert!((-0.35..0.05).contains(&off), "{source}: {wood} {published:.2}, reckoned at most {:.2}", free / hemmed);
    }
}

#[test]
fn release_for_a_generation_gives_no_less_than_a_trial_gave() {
    // Leak & Solomon 1997, abstract: inches that a heavy release added at most in 31 years to crop trees of 25 years. The
    // thickness at the start is not given; 4 in is ours. Neighbours close in again in such a time, which the model knows
    // only from a later count: it gives these trees more, twice and more to sugar maple, yellow birch and ash.
    let rows = [
        ("paper-birch", 2.0),
        ("american-beech", 2.0),
        ("red-maple", 2.0),
        ("sugar-maple", 1.0),
        ("yellow-birch", 1.0),
        ("white-ash", 0.0),
    ];
    for (wood, published) in rows {
        let [free, hemmed] = [0.0, HEMMED_IN].map(|thicker| gains(wood, 4.0, thicker, 31));
        let [poor, good] = [free[0] - hemmed[0], free[1] - hemmed[1]];
        assert!(published <= good, "{wood}: {published} in added, reckoned {poor:.1} to {good:.1}");
    }
}

#[test]
fn woods_grow_in_about_the_order_of_a_trial() {
    // Research Note NE-75, 1967, abstract: eight woods of the Appalachians after a partial cut, the fastest first.
    let published = [
        "red-oak",
        "tulip-poplar",
        "sugar-maple",
        "basswood",
        "black-cherry",
        "white-ash",
        "american-beech",
        "chestnut-oak",
    ];
    let mut reckoned = published;
    reckoned.sort_by(|one, other| gains(other, 14.0, 0.0, 10)[1].total_cmp(&gains(one, 14.0, 0.0, 10)[1]));
    let squares = published.iter().enumerate().map(|(place, wood)| {
        let here = reckoned.iter().position(|other| other == wood).unwrap();
        (here as f64 - place as f64).powi(2)
    });
    let number = published.len() as f64;
    let correlation = 1.0 - 6.0 * squares.sum::<f64>() / (number * (number.powi(2) - 1.0));
    assert!(correlation > 0.5, "rank correlation {correlation:.2}: {reckoned:?}");
}

#[test]
fn the_growth_of_a_stand_is_that_of_its_stems_one_by_one() {
    // The 31 cherries of the Allegheny as an acre of their own: nothing of their growth is published, but the sum can
    // be reckoned with each tree ranked by hand instead of by the functions of the stand.
    let text = fs::read_to_string(root().join("tests/reckon/cherries.csv")).unwrap();
    let mut inches: Vec<f64> =
        text.lines().skip(1).map(|line| line.split(',').next().unwrap().parse().unwrap()).collect();
    inches.sort_by(|one, other| other.total_cmp(one));
    let stems: Vec<(f64, f64)> = inches.iter().map(|inches| (*inches, 1.0)).collect();
    let cherry = rate("black-cherry");
    let [mut thicker_ones, mut by_hand, mut reckoned] = [0.0; 3];
    for (place, inches) in inches.iter().enumerate() {
        // Trees as thick as this one are not thicker.
        if place > 0 && inches < &stems[place - 1].0 {
            thicker_ones = stems[..place].iter().map(|(inches, _)| INCH * inches * inches).sum();
        }
        let share = (-0.016_537 * thicker_ones).exp();
        by_hand +=
            0.7 * 0.000_792_9 * 60.0 * (1.0 - (-0.156_890_4 * inches).exp()) * if share < 0.5 { 0.5 } else { share };
        let gained = a_year(&cherry, *inches, 60.0, thicker(&stems, *inches));
        reckoned += INCH * ((inches + gained).powi(2) - inches.powi(2));
    }
    assert!((by_hand - reckoned).abs() < 1e-6 * by_hand, "{by_hand} {reckoned}");
    let basal_area: f64 = inches.iter().map(|inches| INCH * inches * inches).sum();
    let counted = between(basal_area, 0.0, basal_area + reckoned, 1).unwrap();
    assert!((counted - by_hand).abs() < 1e-6);
}

/// In how many winters the stock of a size is no more than what falls, by the share that is left of its first stems.
fn winters(stems: &[(f64, f64)], sizes: [f64; 2], falls: f64, grow: f64, gains: f64) -> Option<i16> {
    let stays = |inches: f64, years: usize| inches + gains * years as f64 <= sizes[1] + 1e-12;
    let mut left = vec![1.0];
    for year in 0..60_usize {
        let first = stems.iter().filter(|(inches, _)| *inches >= sizes[0] && stays(*inches, year));
        let first: f64 = first.map(|(_, number)| number).sum();
        let later = (1..=year).filter(|came| stays(sizes[0], year - came)).map(|came| grow / left[came]);
        let stock = left[year] * (first + later.sum::<f64>());
        if stock <= falls {
            return i16::try_from(year).ok();
        }
        left.push(left[year] * (1.0 - falls / stock));
    }
    None
}

/// A farm of the north-east with two acres of oaks, counted at three points, and its trees to fell.
fn oaks(counts: [u32; 3], diameters: &[f64], trees: &[f64]) -> Farm {
    let listed: Vec<String> = diameters.iter().map(|inches| format!("{inches:.1} in")).collect();
    let prism = format!("{{factor: 10 ft2/ac, counts: {counts:?}, diameters: [{}]}}", listed.join(", "));
    let stand = format!("name: The hill\narea: 2 acres\ntarget: 10 ft2/ac\nmeasured: '2025-11-01'\nprism: {prism}\n");
    let mut sheet = "Tag,Wood,DBH (in),Height (ft),Decision\n".to_owned();
    for (tag, inches) in (1..).zip(trees) {
        writeln!(sheet, "{tag},red-oak,{inches},50,fell").unwrap();
    }
    let wish = "name: Winter\nseason: 2026\nwishes: [{strain: shiitake-wide-range, spawn: sawdust, logs: 500}]\n";
    Farm::with(&[
        ("farm.yaml", "name: Oaks\nplace: {where: US-VT, latitude: 44, longitude: -72}\nseason: 2026\n"),
        ("woodlot/hill.yaml", &stand),
        ("woodlot/hill.csv", &sheet),
        ("plans/winter.yaml", wish),
    ])
}

/// The winters of the last oak of two acres by a second reckoning: fewest and most counted, on poor and on good ground.
fn last_oaks(counts: [u32; 3], diameters: &[f64], falling: &[f64]) -> Vec<Option<i16>> {
    let [thinnest, thickest] = [f64::min, f64::max].map(|of| falling.iter().copied().reduce(of).unwrap());
    let sizes = [thinnest.floor(), thickest.ceil()];
    let middle = f64::midpoint(sizes[0], sizes[1]);
    let mean = f64::from(counts.iter().sum::<u32>()) / 3.0;
    let spread = counts.iter().map(|count| (f64::from(*count) - mean).powi(2)).sum::<f64>() / 2.0;
    let error = (spread / 3.0).sqrt() / mean;
    // A counted tree stands for factor / points / its basal area of trees on an acre.
    let thicker = diameters.iter().filter(|inches| **inches > middle).count() as f64 * 10.0 / 3.0;
    let share = (-0.018_024 * thicker).exp().max(0.5);
    let winter = |part: f64, site: f64| {
        let ground = 0.7 * 0.000_892_0 * site * (1.0 - (-0.097_970_2 * middle).exp()) * share;
        let gains = (middle * middle + ground / INCH).sqrt() - middle;
        let each = |inches: &f64| (*inches, part * 2.0 * 10.0 / 3.0 / (INCH * inches * inches));
        let stems: Vec<(f64, f64)> = diameters.iter().map(each).collect();
        let near = stems.iter().filter(|(inches, _)| *inches >= sizes[0] && *inches < sizes[0] + 2.0);
        let grow = near.map(|(_, number)| number).sum::<f64>() / 2.0 * gains;
        winters(&stems, sizes, falling.len() as f64, grow, gains).map(|winter| 2026 + winter)
    };
    [1.0 - error, 1.0 + error].into_iter().flat_map(|part| [winter(part, 50.0), winter(part, 70.0)]).collect()
}

#[test]
fn the_last_oak_falls_between_the_winters_of_a_second_reckoning() {
    // In the second stand trees outgrow the size, and on good ground sooner: more growth brings the last one nearer.
    let stands = [
        ([9, 12, 15], 0.5, (0..9).map(|tree| 7.1 + 0.2 * f64::from(tree)).collect(), false),
        ([10, 10, 10], 0.1, Vec::from([7.1, 7.3, 7.4, 7.6, 7.7, 7.9]), true),
    ];
    for (counts, step, trees, nearer) in stands {
        let diameters: Vec<f64> = (0..counts.iter().sum()).map(|place| 4.1 + step * f64::from(place)).collect();
        let farm = oaks(counts, &diameters, &trees);
        let book = Arc::new(book::bind(folder::files(farm.path()).unwrap()).unwrap());
        let findings = Findings::of(&book, Choice::of(&book));
        let felled = &findings.stands()[0].felled;
        let falling: Vec<f64> = felled.iter().map(|tree| findings.trees()[*tree].tree.record.dbh().inches()).collect();
        assert_eq!(falling.len(), trees.len(), "all marked trees fall");
        let ends = last_oaks(counts, &diameters, &falling);
        let never = |winter: &Option<i16>| winter.unwrap_or(i16::MAX);
        let of = |end: Option<&Option<i16>>| end.copied().flatten();
        let expected = [of(ends.iter().min_by_key(|end| never(end))), of(ends.iter().max_by_key(|end| never(end)))];
        let oak = &findings.growth()[0].lasts[0];
        assert_eq!(oak.winters, expected, "{ends:?}");
        assert!(expected[0].is_some_and(|first| first > 2026), "{ends:?}");
        assert_eq!(never(&ends[3]) < never(&ends[0]), nearer, "{ends:?}");
        let page = farm.drawn("stands/hill.html");
        assert!(
            page.contains(&format!(
                "At this pace the last {} of {} in to {} in",
                oak.wood, oak.inches[0], oak.inches[1]
            ))
        );
        assert!(expected.iter().flatten().all(|winter| page.contains(&winter.to_string())), "{expected:?}");
    }
}

proptest! {
    #[test]
    fn the_last_tree_is_that_of_a_second_reckoning(
        stems in proptest::collection::vec((4.0f64..12.0, 1.0f64..40.0), 1..9),
        low in 4u8..8, wide in 1u8..4, falls in 1u32..12, grow in 0.0f64..6.0, gains in 0.03f64..0.25,
    ) {
        let sizes = [f64::from(low), f64::from(low + wide)];
        let falls = f64::from(falls);
        prop_assert_eq!(last(&stems, sizes, falls, grow, gains), winters(&stems, sizes, falls, grow, gains));
    }

    #[test]
    fn where_no_stem_gains_the_last_falls_when_the_stock_is_used_up(
        number in 1.0f64..200.0, falls in 1u32..12, part in 0.0f64..0.9,
    ) {
        let falls = f64::from(falls);
        let grow = falls * part;
        let years = ((number - falls) / (falls - grow)).max(0.0);
        prop_assume!((years - years.round()).abs() > 1e-6);
        let expected = (years.ceil() < 60.0).then_some(years.ceil() as i16);
        prop_assert_eq!(last(&[(5.5, number)], [5.0, 7.0], falls, grow, 0.0), expected);
    }
}
