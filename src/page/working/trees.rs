//! The working behind the logs of each tree.

use serde::Serialize;

use super::formula::{Cited, winter};
use crate::{
    book::Wood,
    page::{
        Context,
        part::{Anchor, Figure, cite::Cite},
        route::tree_anchor,
    },
    quantity::{Length, Units, measure::rounded},
    reckon::findings::{TreeFinding, trees::Counted},
};

/// The working behind the logs of each tree.
#[derive(Debug, Serialize)]
pub struct View {
    formulas: Vec<Cited>,
    sought: String,
    unit: &'static str,
    shapes: Vec<Shape>,
    trees: Vec<Tree>,
}

/// The shape of one wood's stems.
#[derive(Debug, Serialize)]
struct Shape {
    wood: Anchor,
    numbers: String,
    cites: Vec<Cite>,
    note: Option<String>,
}

/// One tree.
#[derive(Debug, Serialize)]
struct Tree {
    id: String,
    tag: String,
    numbers: String,
    pieces: String,
    result: Figure,
}

/// The view of the working.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let findings = context.findings;
    let units = context.units();
    let log = &context.book.farm.record.log;
    let mut woods: Vec<&Wood> = findings.trees().iter().map(|tree| tree.tree.wood.as_ref()).collect();
    woods.sort_by_cached_key(|wood| wood.name().to_lowercase());
    woods.dedup_by(|a, b| a.id == b.id);
    View {
        formulas: vec![
            winter::lower_stem().cited(context),
            winter::upper_stem().cited(context),
            winter::butt().cited(context),
            winter::fallback().cited(context),
            winter::newton().cited(context),
        ],
        sought: format!(
            "Logs of {}, small end at least {}, middle at most {}, over bark; a stump of {} and {} for each cut",
            log.length.show(units),
            log.diameter.low.show(units),
            log.diameter.high.show(units),
            Length::of_feet(crate::reckon::bolts::STUMP).show(units),
            Length::of_feet(crate::reckon::bolts::KERF).show(units)
        ),
        unit: units.length(),
        shapes: woods.into_iter().map(|wood| shape(wood, context)).collect(),
        trees: findings.trees().iter().map(|tree| of_tree(tree, units)).collect(),
    }
}

fn shape(wood: &Wood, context: &Context<'_>) -> Shape {
    let Some(taper) = &wood.record.taper else {
        return Shape {
            wood: Anchor::wood(wood, context),
            numbers: "no coefficients: the fallback stands in".to_owned(),
            cites: vec![Cite::of(
                &crate::record::Id::new("ormerod-1973"),
                crate::record::said::Mark::SecondHand,
                context,
            )],
            note: None,
        };
    };
    let numbers = [
        ("a₄", taper.a4),
        ("b₄", taper.b4),
        ("a₁₇", taper.a17),
        ("b₁₇", taper.b17),
        ("p", taper.p),
        ("a", taper.a),
        ("b", taper.b),
        ("B₁", taper.stump.outside),
    ];
    let numbers: Vec<String> = numbers.iter().map(|(name, value)| format!("{name} = {}", rounded(*value, 5))).collect();
    let group = if taper.of_group { ", a group" } else { "" };
    Shape {
        wood: Anchor::wood(wood, context),
        numbers: format!("{} (profile of {}{group}; butt of {})", numbers.join(", "), taper.row, taper.stump.row),
        cites: vec![
            Cite::of(&taper.source, taper.mark, context),
            Cite::of(&taper.stump.source, taper.stump.mark, context),
        ],
        note: taper.note.clone(),
    }
}

fn of_tree(found: &TreeFinding, units: Units) -> Tree {
    let record = &found.tree.record;
    let height = found.height.as_ref().map(|height| format!(", H = {}", height.show(units)));
    let how = match &found.counted {
        Ok(Counted::StandHeight) => " (height of the stand)",
        Ok(Counted::Eye) => " (logs by eye)",
        Ok(Counted::Height) | Err(_) => "",
    };
    let thick = |inches: f64| rounded(Length::of_inches(inches).number(units), 1);
    let piece = |piece: &crate::reckon::bolts::Piece| {
        let over = if piece.oversize { " too thick" } else { "" };
        format!("{}/{}/{}{over}", thick(piece.large), thick(piece.middle), thick(piece.small))
    };
    let pieces: Vec<String> = found.pieces.iter().flat_map(|cut| &cut.pieces).map(piece).collect();
    let thinner = found.careful.map_or_else(String::new, |careful| format!("; a stem 5 % thinner gives {careful}"));
    Tree {
        id: tree_anchor(&found.tree.tag().0),
        tag: record.tag.to_string(),
        numbers: format!(
            "{}, D = {}{}{how}",
            found.tree.wood.name(),
            record.dbh.show(units),
            height.unwrap_or_default()
        ),
        pieces: pieces.join(" · "),
        result: match &found.counted {
            Ok(_) => Figure {
                text: format!("{} in the stem, {} in the limbs{thinner}", found.stem_logs, found.limb_logs),
                href: None,
                gap: false,
            },
            Err(gap) => Figure::gap(gap.to_string()),
        },
    }
}
