//! The working behind holes and spawn.

use crate::page::Context;
use crate::page::part::cite::Cite;
use crate::page::part::worked::{Block, Part};
use crate::page::part::{Anchor, range};
use crate::quantity::measure::rounded;
use crate::quantity::{Length, Units, Value, count};
use crate::reckon::findings::day::DayWood;
use crate::reckon::findings::{Filling, logs};
use crate::reckon::formula::Formula;
use crate::reckon::holes;
use crate::reckon::holes::HOLES;
use crate::reckon::spawn::SPAWN;
use crate::record::Id;
use crate::record::method::SpawnRate;
use crate::record::said::Mark;
use crate::record::strain::SpawnForm;

/// Its formulas.
pub const FORMULAS: &[&Formula] = &[&HOLES, &SPAWN];

/// How holes are counted by each of the other rules.
const RULES: &str = "By area N = π D L / (a b); by rows N = (D in inches, rounded) × floor((L − a) / a + 1); by \
                     weight N = k × pounds; by diameter N = 3 to 4 × D in cm. The figures are in the order \
                     of the farm's diameters.";

/// What was put in, and what it came to.
pub fn parts(context: &Context<'_>) -> Vec<Part> {
    let fillings = context.findings.fillings();
    let first = fillings.iter().find(|filling| filling.need.is_ok()).map(|filling| filling.pattern.name.as_str());
    let of_first =
        |filling: &&Filling| filling.form == SpawnForm::Sawdust && Some(filling.pattern.name.as_str()) == first;
    let few = |filling: &&Filling| logs::FEW.contains(&filling.logs);
    let of_first: Vec<&Filling> = fillings.iter().filter(of_first).filter(few).collect();
    let totals: Vec<String> = of_first.iter().map(|filling| total(filling, context.units())).collect();
    let whole = format!("whole holes times logs: {}", totals.join("; "));
    let rate = fillings.iter().find_map(|filling| filling.rate.as_ref());
    let sizes = of_first.chunk_by(|a, b| a.diameter == b.diameter);
    vec![
        Part::new("day", "This winter’s day, by the middle diameter of the logs on average").blocks(day(context)),
        Part::new("holes", "Holes")
            .by(&[&HOLES], context)
            .blocks(patterns(fillings).into_iter().map(|filling| pattern(filling, context)))
            .blocks([Block::default().line(whole)]),
        Part::new("rules", "Other rules for the same logs").says(RULES).blocks(rules(context)),
        Part::new("spawn", "Spawn")
            .by(&[&SPAWN], context)
            .blocks(rate.map(|rate| of_rate(rate, context)))
            .blocks(sizes.filter_map(|fillings| size(fillings, context.units()))),
    ]
}

/// The logs of each wood for each strain, as they were put in, by their middle diameter on average.
fn day(context: &Context<'_>) -> Vec<Block> {
    let units = context.units();
    let work = &context.book.farm.record.work;
    let each = [work.drilling_minutes, work.filling_minutes, work.waxing_minutes];
    let minutes: Vec<String> = each.into_iter().flatten().map(|minutes| rounded(minutes, 1)).collect();
    let minutes = if minutes.is_empty() { "no".to_owned() } else { minutes.join(" + ") };
    let wax = work.wax_a_log.as_ref().map_or_else(String::new, |wax| format!("; {} of wax a log", wax.show(units)));
    let of_wood = |wood: &DayWood| {
        let (diameter, holes) = (wood.diameter.show(units), rounded(wood.holes, 2));
        let put = format!("m = {}, D = {diameter}, N = {holes}{wax}; {minutes} minutes a log", wood.logs);
        let holes = count(wood.all_holes(), "hole", "holes");
        format!("{}: {put}; {} × {} = {holes}", wood.name(), wood.whole_holes(), wood.logs)
    };
    let days = context.findings.days().iter().filter(|day| !day.woods.is_empty());
    let block = |block: Block, wood: &DayWood| block.line(of_wood(wood));
    days.map(|day| {
        let head = Block::of(Anchor::strain(&day.strain, context));
        day.woods.iter().fold(head, block).made_by(&[&HOLES])
    })
    .collect()
}

/// The fillings of one log that differ in pattern or thickness.
fn patterns(fillings: &[Filling]) -> Vec<&Filling> {
    let mut single: Vec<&Filling> = fillings.iter().filter(|filling| filling.logs == 1).collect();
    let mut seen = Vec::new();
    single.retain(|filling| {
        let key = (&filling.pattern.name, filling.between.written(), filling.diameter.written());
        let fresh = !seen.contains(&key);
        seen.push(key);
        fresh
    });
    single
}

fn pattern(filling: &Filling, context: &Context<'_>) -> Block {
    let units = context.units();
    let pattern = &filling.pattern;
    let hole = pattern.hole_diameter.as_ref().zip(pattern.hole_depth.as_ref()).map(|(diameter, depth)| {
        let volume = Value::from(holes::volume(diameter, depth)).show(units);
        format!("; a hole of {} × {} holds {volume}", diameter.show(units), depth.show(units))
    });
    let numbers = format!(
        "{}: D = {}, L = {}, a = {}, b = {}, so N = {}, printed {}{}",
        pattern.name,
        filling.diameter.show(units),
        filling.length.show(units),
        pattern.along.show(units),
        filling.between.show(units),
        rounded(filling.holes, 2),
        filling.whole_holes(),
        hole.unwrap_or_default()
    );
    Block::default().line(numbers).cites([Cite::by(pattern, context)])
}

/// Whole holes times logs.
fn total(filling: &Filling, units: Units) -> String {
    let (each, logs, all) = (filling.whole_holes(), filling.logs, filling.all_holes());
    format!("{}: {each} × {logs} = {all}", filling.diameter.show(units))
}

/// Holes in one log by every pattern and rule that was published.
fn rules(context: &Context<'_>) -> Vec<Block> {
    let units = context.units();
    let length = &context.book.farm.record.log.length;
    let diameters = logs::diameters(context.book, units);
    let whole = |number: f64| number.round().to_string();
    let rule = |says: String, figures: Vec<String>, source: &str, mark: Mark| {
        let cite = Cite::of(&Id::new(source), mark, context);
        Block::default().line(format!("{says}: {}", figures.join(", "))).cites([cite])
    };
    let of = |holes: &dyn Fn(&Length) -> f64| diameters.iter().map(|diameter| whole(holes(diameter))).collect();
    let method = context.book.methods.get(logs::DRILLED);
    let patterns = method.iter().flat_map(|method| &method.record.patterns);
    let by_area =
        patterns.filter_map(|pattern| Some((pattern, pattern.between.as_ref()?))).map(|(pattern, between)| {
            let along = &pattern.along;
            let says = format!("{}: {} along, {} between rows", pattern.name, along.show(units), between.show(units));
            let figures = of(&|diameter| holes::by_area(diameter, length, along, between));
            rule(says, figures, pattern.source.as_str(), pattern.mark)
        });
    let along = Length::of_inches(holes::ROW_INCHES);
    let by_rows = of(&|diameter| holes::by_rows(diameter, length, &along));
    let says = format!("A row for each inch of diameter, {} along", along.show(units));
    let by_rows = rule(says, by_rows, "common-practice", Mark::Memory);
    let by_weight = context.findings.loads().find(|of| of.density.result.is_ok()).map(|of| {
        let masses = of.logs.iter().filter_map(|log| log.green.result.as_ref().ok());
        let figures = masses.map(|mass| {
            let [one, two] = holes::A_POUND.map(|factor| whole(holes::by_weight(mass, factor)));
            range(&one, &two)
        });
        let says = format!("One to two holes for each pound of a green log, here of {}", of.wood.name());
        rule(says, figures.collect(), "sab-den", Mark::Read)
    });
    let by_diameter =
        diameters.iter().map(holes::by_diameter).map(|both| both.map(whole)).map(|[low, high]| range(&low, &high));
    let says = "At least three to four holes for each cm of top diameter".to_owned();
    let by_diameter = rule(says, by_diameter.collect(), "hro09", Mark::Read);
    by_area.chain([by_rows]).chain(by_weight).chain([by_diameter]).collect()
}

fn of_rate(rate: &SpawnRate, context: &Context<'_>) -> Block {
    let units = context.units();
    let [low, high] = [&rate.diameter.low, &rate.diameter.high];
    let numbers = format!(
        "P = {}, n = {} to {}, D₀ = {} to {} (middle {}), L₀ = {}",
        rate.package.show(units),
        rate.logs.low,
        rate.logs.high,
        low.show(units),
        high.show(units),
        rate.diameter.middle().show(units),
        rate.length.show(units)
    );
    Block::default().line(numbers).cites([Cite::by(rate, context)])
}

/// The spawn of a log of one thickness, and the packages for many.
fn size(fillings: &[&Filling], units: Units) -> Option<Block> {
    let first = fillings.first()?;
    let (need, rate) = (first.need.as_ref().ok()?, first.rate.as_ref()?);
    let many = fillings.iter().filter_map(|filling| {
        let need = filling.need.as_ref().ok()?;
        let (least, most) = (need.packages_least, need.packages_most);
        let packages = if least == most { least.to_string() } else { format!("{least} to {most}") };
        let [low, high] = filling.all_spawn()?.map(|mass| mass.show(units));
        let logs = count(filling.logs, "log", "logs");
        Some(format!("{logs}: {low} to {high}, so {packages} of {}", rate.package.show(units)))
    });
    let factor = rounded(need.size, 3);
    let each = format!(
        "{}: DL / D₀L₀ = {factor}, so {} to {} a log",
        first.diameter.show(units),
        need.least.show(units),
        need.most.show(units)
    );
    Some(Block::default().line(each).line(many.collect::<Vec<_>>().join("; ")))
}
