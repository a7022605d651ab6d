//! Lays out the tables of the winter's work.

use super::{
    Cell, Grid,
    build::{grid, length, length_unit, mass, mass_unit, text},
};
use crate::{
    book::Book,
    quantity::{BasalArea, Length, Units, count, measure::HECTARES_AN_ACRE},
    reckon::{
        Findings,
        density::Density,
        findings::{
            PurchaseFinding, TreeFinding,
            lifts::load,
            purchase::Amount,
            trees::Counted,
            winter::{Short, Why},
        },
        lifting,
        moisture::{dry_of_wet, lost},
    },
    record::{plan::Floor, table::Table},
};

/// The unit of a height or a volume of wood, and of an area of ground.
const fn height_unit(units: Units) -> &'static str {
    match units {
        Units::Us => "ft",
        Units::Metric => "m",
    }
}

fn feet(feet: f64, units: Units) -> f64 {
    match units {
        Units::Us => feet,
        Units::Metric => feet * 0.3048,
    }
}

fn height(height: &Length, units: Units) -> Cell {
    Cell::Number(feet(height.feet(), units), 1)
}

fn flag(flag: bool) -> Cell {
    Cell::Flag(flag)
}

/// How a tree was counted, or why it was not.
fn counted(tree: &TreeFinding) -> String {
    match &tree.counted {
        Ok(Counted::Height) => "reckoned from its height".to_owned(),
        Ok(Counted::StandHeight) => "estimated from the height of the stand".to_owned(),
        Ok(Counted::Eye) => "estimated by eye".to_owned(),
        Err(gap) => gap.to_string(),
    }
}

pub fn trees(findings: &Findings) -> Grid {
    let units = findings.choice.units;
    let row = |tree: &TreeFinding| {
        let record = &tree.tree.record;
        vec![
            text(record.tag.to_string()),
            Cell::text(tree.tree.stand.as_ref().map(|stand| stand.id.as_str())),
            text(&tree.tree.wood.id),
            text(record.decision.id()),
            Cell::number(tree.is_counted().then(|| f64::from(tree.logs())), 0),
            length(&record.dbh, units),
            tree.height.as_ref().or(record.height.as_ref()).map_or(Cell::Empty, |of| height(of, units)),
            Cell::number(tree.careful.map(|logs| f64::from(logs + tree.limb_logs)), 0),
            Cell::Number(f64::from(tree.limb_logs), 0),
            Cell::number(tree.pieces.as_ref().map(|cut| f64::from(cut.oversize())), 0),
            text(counted(tree)),
            flag(findings.winter().falls(&record.tag)),
            Cell::text(record.why.as_deref()),
        ]
    };
    let (diameter, height) = (format!("diameter_{}", length_unit(units)), format!("height_{}", height_unit(units)));
    let columns = [
        "tag",
        "stand",
        "wood",
        "decision",
        "logs",
        &diameter,
        &height,
        "logs_if_thinner",
        "limb_logs",
        "oversize",
        "counted",
        "this_winter",
        "why",
    ];
    grid(Table::Trees, &columns, findings.trees().iter().map(row).collect())
}

pub fn bolts(findings: &Findings) -> Grid {
    let units = findings.choice.units;
    let mut rows = Vec::new();
    for tree in findings.trees() {
        let green = crate::reckon::findings::logs::green(&tree.tree.wood.record);
        for (index, piece) in tree.pieces.iter().flat_map(|cut| &cut.pieces).enumerate() {
            let cubic_metres = piece.volume * 0.3048_f64.powi(3);
            let weight = crate::reckon::weight::of_cubic_feet(&green, piece.volume).ok();
            let inches = |inches: f64| length(&Length::of_inches(inches), units);
            let volume = if units == Units::Us { piece.volume } else { cubic_metres * 1000.0 };
            rows.push(vec![
                text(tree.tree.tag().to_string()),
                text(&tree.tree.wood.id),
                Cell::Number(index as f64 + 1.0, 0),
                text(if piece.oversize { "oversize" } else { "log" }),
                Cell::Number(feet(piece.from, units), 2),
                inches(piece.large),
                inches(piece.middle),
                inches(piece.small),
                Cell::Number(volume, 4),
                mass(weight.as_ref(), units),
            ]);
        }
    }
    let from = format!("from_{}", height_unit(units));
    let [large, middle, small] =
        ["diameter_large", "diameter_middle", "diameter_small"].map(|name| format!("{name}_{}", length_unit(units)));
    let volume = if units == Units::Us { "volume_ft3" } else { "volume_l" };
    let weight = format!("mass_{}", mass_unit(units));
    let columns = ["tag", "wood", "piece", "is", &from, &large, &middle, &small, volume, &weight];
    grid(Table::Bolts, &columns, rows)
}

pub fn lifting(book: &Book, findings: &Findings) -> Grid {
    let units = findings.choice.units;
    let mut rows = Vec::new();
    for task in findings.lifts() {
        for log in findings.loads() {
            let weight = log.mass(task.soaked);
            let limit = task.limit(&log.diameter, units);
            let index = limit.clone().and_then(|limit| {
                let weight = weight.clone()?;
                limit.index(load(&weight, units))
            });
            rows.push(vec![
                text(&task.id),
                text(&log.wood.id),
                length(&log.diameter, units),
                length(&book.farm.record.log.length, units),
                flag(task.soaked),
                mass(weight.as_ref().ok(), units),
                Cell::number(limit.as_ref().ok().map(|limit| limit.governing().limit), 1),
                Cell::number(index.as_ref().ok().copied(), 2),
                text(match &index {
                    Ok(index) => lifting::advice(*index).to_owned(),
                    Err(gap) => gap.to_string(),
                }),
            ]);
        }
    }
    let (unit, weight) = (length_unit(units), mass_unit(units));
    let (diameter, length) = (format!("diameter_{unit}"), format!("length_{unit}"));
    let (mass, limit) = (format!("mass_{weight}"), format!("rwl_{weight}"));
    grid(Table::Lifting, &["task", "wood", &diameter, &length, "soaked", &mass, &limit, "li", "advice"], rows)
}

pub fn moisture(findings: &Findings) -> Grid {
    let units = findings.choice.units;
    let mut rows = Vec::new();
    for reading in findings.readings() {
        rows.push(vec![
            text(&reading.batch.id),
            text("sample log"),
            text(reading.label.to_string()),
            text(reading.date.written()),
            mass(Some(&reading.then), units),
            mass(Some(&reading.now), units),
            Cell::Number(lost(&reading.then, &reading.now) * 100.0, 1),
            reading.too_dry.clone().map_or(Cell::Empty, Cell::Flag),
            Cell::Empty,
            Cell::Empty,
            Cell::text(reading.too_dry.as_ref().err().map(ToString::to_string)),
        ]);
    }
    for reading in findings.slices() {
        rows.push(vec![
            text(&reading.batch.id),
            text("slice"),
            Cell::Empty,
            text(reading.slice.date.written()),
            mass(Some(&reading.slice.wet), units),
            mass(Some(&reading.slice.dry), units),
            Cell::Empty,
            Cell::Empty,
            Cell::Number(reading.wet * 100.0, 1),
            Cell::Number(dry_of_wet(reading.wet) * 100.0, 1),
            Cell::Empty,
        ]);
    }
    let [then, now] = ["mass_first", "mass_then"].map(|name| format!("{name}_{}", mass_unit(units)));
    let columns = [
        "batch",
        "of",
        "label",
        "date",
        &then,
        &now,
        "lost_percent",
        "too_dry",
        "wet_basis_percent",
        "dry_basis_percent",
        "remark",
    ];
    grid(Table::Moisture, &columns, rows)
}

/// An amount in words.
fn amount(amount: &Amount, units: Units) -> String {
    match amount {
        Amount::Weight(mass) => mass.show(units),
        Amount::Pieces(pieces) => count(*pieces, "piece", "pieces"),
    }
}

pub fn supply(findings: &Findings) -> Grid {
    let units = findings.choice.units;
    let mut rows = Vec::new();
    for found in findings.purchases() {
        let packages: Vec<(String, u32, Option<f64>)> = found
            .packages()
            .map(|(offer, packages)| {
                let holds = offer.weight.as_ref().map(|weight| weight.show(units));
                let pieces = offer.pieces.map(|pieces| count(pieces, "piece", "pieces"));
                let cost = offer.price.map(|price| price * f64::from(packages));
                (holds.or(pieces).unwrap_or_default(), packages, cost)
            })
            .collect();
        let left = found.bought.as_ref().ok().zip(found.need.as_ref().ok());
        let left = left.map(|(bought, need)| amount(&need.of_whole(bought.left_over), units));
        let last = packages.len().saturating_sub(1);
        for (index, (package, count, cost)) in packages.into_iter().enumerate() {
            let left = left.clone().filter(|_| index == last);
            rows.push(supply_row(found, units, Some(package), Some(count), cost, left));
        }
        if found.packages().next().is_none() {
            rows.push(supply_row(found, units, None, None, None, None));
        }
    }
    let columns = ["item", "package", "count", "cost", "left_over", "strain", "need", "order_by", "use_by", "remark"];
    grid(Table::Supply, &columns, rows)
}

fn supply_row(
    found: &PurchaseFinding,
    units: Units,
    package: Option<String>,
    count: Option<u32>,
    cost: Option<f64>,
    left: Option<String>,
) -> Vec<Cell> {
    let no_price = found.bought.as_ref().is_ok_and(|bought| bought.cost.is_none());
    let gap = found.need.as_ref().err().or(found.bought.as_ref().err()).map(ToString::to_string);
    let unpriced = no_price
        .then(|| "no cost: no package on offer has a price, so the set that leaves least over stands".to_owned());
    vec![
        text(found.item.words()),
        Cell::text(package),
        Cell::number(count.map(f64::from), 0),
        Cell::number(cost, 2),
        Cell::text(left),
        Cell::text(found.strain.as_ref().map(|strain| strain.id.as_str())),
        Cell::text(found.need.as_ref().ok().map(|need| amount(need, units))),
        Cell::text(found.order_by.map(|date| date.written())),
        Cell::text(found.use_by.map(|date| date.written())),
        Cell::text(gap.or(unpriced)),
    ]
}

pub fn allocation(findings: &Findings) -> Grid {
    let winter = findings.winter();
    let gap = || Cell::number(Some(winter.gap).filter(|gap| gap.is_finite()), 4);
    let mut rows = Vec::new();
    for wish in &winter.wishes {
        for placed in &wish.placed {
            rows.push(vec![
                text(&wish.strain.id),
                text(&placed.wood.id),
                Cell::Number(f64::from(placed.logs), 0),
                Cell::number(placed.rating.map(f64::from), 0),
                text(placed.word.words()),
                text(wish.wish.spawn.id()),
                gap(),
                Cell::Empty,
            ]);
        }
        let short = wish.short.as_ref().map(|short| (Some(short.logs), why(short)));
        let unasked = wish.wanted.as_ref().err().map(|gap| (None, gap.to_string()));
        if let Some((logs, why)) = short.or(unasked) {
            rows.push(vec![
                text(&wish.strain.id),
                Cell::Empty,
                Cell::number(logs.map(f64::from), 0),
                Cell::Empty,
                Cell::Empty,
                text(wish.wish.spawn.id()),
                gap(),
                text(why),
            ]);
        }
    }
    grid(Table::Allocation, &["strain", "wood", "logs", "rating", "word", "spawn", "gap", "why"], rows)
}

/// What a floor asks of a wood, in words.
const fn good_enough(floor: Floor) -> &'static str {
    match floor {
        Floor::Thrives => "thrive with it",
        Floor::DoesWell => "do well with it",
        Floor::GetsBy => "get by with it",
        Floor::Mentioned => "are mentioned with it",
        Floor::Untried => "do not fail with it",
    }
}

/// Why a wish lacks logs, in words.
#[must_use]
pub fn why(short: &Short) -> String {
    match &short.why {
        Why::NoWood(floor) => format!("no woods at hand {}", good_enough(*floor)),
        Why::Limits(stands) => format!(
            "more trees of woods that suit it are marked, but the limit of {} holds them back",
            stands.join(" and ")
        ),
        Why::UsedUp(floor, lower) => {
            let placed = format!("every log of the woods that {} is placed", good_enough(*floor));
            let names: Vec<&str> = lower.iter().map(|wood| wood.name()).collect();
            match names.as_slice() {
                [] => placed,
                names => format!("{placed}; a lower floor in the plan would let in {}", names.join(", ")),
            }
        }
    }
}

pub fn thinning(findings: &Findings) -> Grid {
    let mut rows = Vec::new();
    for found in findings.stands() {
        let measured = &found.measured;
        let logs: u32 = found.felled.iter().map(|index| findings.trees()[*index].logs()).sum();
        for (state, density) in [("before", &measured.density), ("after", &found.after)] {
            let of = |value: fn(&Density) -> Option<f64>| density.as_ref().ok().and_then(value);
            let basal = |show: fn(&BasalArea) -> f64| {
                density.as_ref().ok().map(|density| show(&basal_area(density.basal_area)))
            };
            let acres = measured.acres.as_ref().ok().copied();
            rows.push(vec![
                text(&measured.stand.id),
                text(state),
                Cell::number(acres, 2),
                Cell::number(acres.map(|acres| acres * HECTARES_AN_ACRE), 2),
                Cell::number(basal(BasalArea::square_feet_an_acre), 2),
                Cell::number(basal(BasalArea::square_metres_a_hectare), 2),
                Cell::number(measured.target(), 1),
                Cell::number(of(|density| density.trees.map(|[trees, _]| trees)), 1),
                Cell::number(of(|density| density.trees.map(|[trees, _]| trees / HECTARES_AN_ACRE)), 1),
                Cell::number(of(Density::quadratic_mean), 2),
                Cell::number(of(Density::quadratic_mean).map(|inches| inches * 2.54), 2),
                Cell::number(of(Density::stocking), 1),
                Cell::Number(if state == "after" { found.felled.len() as f64 } else { 0.0 }, 0),
                Cell::Number(if state == "after" { f64::from(logs) } else { 0.0 }, 0),
                Cell::text(density.as_ref().err().map(ToString::to_string)),
            ]);
        }
    }
    let columns = [
        "stand",
        "state",
        "area_acres",
        "area_ha",
        "basal_area_ft2_per_acre",
        "basal_area_m2_per_ha",
        "target_ft2_per_acre",
        "trees_per_acre",
        "trees_per_ha",
        "quadratic_mean_in",
        "quadratic_mean_cm",
        "stocking_percent",
        "felled",
        "logs",
        "remark",
    ];
    grid(Table::Thinning, &columns, rows)
}

/// A basal area from square feet an acre.
#[must_use]
pub fn basal_area(square_feet_an_acre: f64) -> BasalArea {
    BasalArea::of_square_feet_an_acre(square_feet_an_acre)
}
