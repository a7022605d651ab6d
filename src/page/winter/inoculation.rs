//! Inoculation day: tools, hands, hours, holes, spawn and wax, strain by strain; and figures for any number of logs.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::page::figure::log;
use crate::page::figure::log::Log;
use crate::page::part::caution::{Cautions, Subject};
use crate::page::part::cite::Cite;
use crate::page::part::purchase::money;
use crate::page::part::table::{Cell, Part, Table, below, cell, list};
use crate::page::part::{Anchor, Figure, and, date, gate, lift, other_work, range, thickness};
use crate::page::{Context, Page};
use crate::quantity::measure::rounded;
use crate::quantity::{Date, Duration, Length, Mass, Units, count};
use crate::reckon::findings::day::DayWood;
use crate::reckon::findings::{Day, Filling, day, logs, purchase};
use crate::reckon::formula::Place;
use crate::reckon::season::Basis;
use crate::reckon::{Gap, Topic, holes};
use crate::record::Kind;
use crate::record::caution::Task;
use crate::record::method::Pattern;
use crate::record::strain::SpawnForm;

/// The sheet of holes, spawn and wax.
#[derive(Debug, Serialize)]
pub struct View {
    length: String,
    jobs: Option<Table>,
    apart: Vec<String>,
    total: Option<Cell>,
    tools: Vec<(String, String)>,
    pattern: Option<Cell>,
    drawing: Option<(String, Vec<(&'static str, String)>)>,
    sizes: Vec<Size>,
    wax: String,
    minutes: String,
    method: String,
    gate: Vec<&'static str>,
    lifts: Option<Table>,
    lifting: String,
    cautions: Cautions,
    working: String,
}

/// Logs of one diameter.
#[derive(Debug, Serialize)]
struct Size {
    diameter: String,
    holes: Figure,
    rows: Vec<Row>,
    priced: bool,
}

/// A number of logs of one diameter.
#[derive(Debug, Serialize)]
struct Row {
    logs: u32,
    holes: Figure,
    spawn: Figure,
    packages: Figure,
    /// What the packages cost by the offers of the season's plans.
    price: Option<String>,
    /// Whether it stands there only for who asks for it.
    fine: bool,
}

/// The view of the sheet.
pub fn view(context: &Context<'_>) -> View {
    let units = context.units();
    let findings = context.findings;
    let sawdust: Vec<&Filling> =
        findings.fillings().iter().filter(|filling| filling.form == SpawnForm::Sawdust).collect();
    let first = sawdust.first();
    let name = first.map(|filling| filling.pattern.name.as_str());
    let of_pattern: Vec<&Filling> =
        sawdust.iter().copied().filter(|filling| Some(filling.pattern.name.as_str()) == name).collect();
    View {
        length: context.book.farm.record.log.length.show(units),
        pattern: first.map(|filling| pattern(filling, context)),
        drawing: of_pattern.get(of_pattern.len() / 2).map(|filling| drawing(filling, context)),
        sizes: of_pattern
            .chunk_by(|a, b| a.diameter == b.diameter)
            .filter_map(|fillings| size(fillings, context))
            .collect(),
        jobs: jobs(context),
        apart: apart(context),
        total: total(context),
        tools: tools(context),
        wax: Gap::NotPublished("the weight of wax a log").to_string(),
        minutes: Gap::NotPublished("the time to drill, fill and wax a log").to_string(),
        method: context.route.record(Kind::Method, logs::DRILLED),
        gate: gate::of(gate::INOCULATION, context),
        lifts: lift::limits(&lift::of_tank(false, context), context),
        lifting: context.route.at(&Page::Bucking, "lifting"),
        cautions: Cautions::of(Task::Inoculation, &subject(context), context),
        working: context.route.to(&Page::Working(Topic::Inoculation)),
    }
}

/// The woods and the mushrooms of the day.
fn subject<'a>(context: &Context<'a>) -> Subject<'a> {
    let days = context.findings.days();
    Subject {
        woods: days.iter().flat_map(|day| &day.woods).filter_map(|of| of.wood.as_deref()).collect(),
        mushrooms: days.iter().map(|day| day.strain.mushroom.as_ref()).collect(),
        ..Subject::default()
    }
}

/// The work of each wish.
fn jobs(context: &Context<'_>) -> Option<Table> {
    let units = context.units();
    let worked = |text: String| Figure::worked(text, &Place::new(Topic::Inoculation, "day"), context);
    let drilled = |day: &Day, found: Result<String, Gap>| {
        if day.logs() == 0 { Cell::from(Part::Nothing) } else { found.map(worked).into() }
    };
    let wood = |of: &DayWood| {
        let thickness = thickness(of.diameter.inches(), units);
        let holes = count(of.holes.round(), "hole", "holes");
        let about = format!(", {thickness} thick on average, {holes} each");
        match &of.wood {
            Some(wood) => cell![format!("{} of ", of.logs), Anchor::wood(wood, context), about],
            None => cell![format!("{} {}", of.logs, of.name()), about],
        }
    };
    let days = context.findings.days().iter().filter(|day| day.logs() > 0 || !day.other.is_empty());
    Table::of("facts tally stack", "Strain by strain", days)
        .id("day")
        .plain("Done", |_| Part::Tick)
        .head("Strain", |day| {
            let basis = basis(day, context);
            let when = day.window.map(|(from, to)| date::with_basis(date::between(from, to, context.units()), basis));
            cell![Anchor::strain(&day.strain, context), ", ", day.form.words(), below(when)]
        })
        .column("Logs", |day| {
            let other = day.other.iter().map(|work| other_work::words(work, context));
            let gaps = day.other.iter().filter_map(|work| work.spawn.as_ref()?.as_ref().err());
            let gaps = gaps.map(|gap| cell![" ", Part::Gap(gap.to_string())]);
            cell![list("; ", day.woods.iter().map(wood)), list("", other), list("", gaps)]
        })
        .number("Holes", |day| drilled(day, Ok(day.holes().to_string())))
        .number("Spawn", |day| {
            let of_form = || format!("{} {}", day.holes(), day.form.words());
            let pieces = matches!(day.form, SpawnForm::Plug | SpawnForm::Thimble).then(of_form);
            let weight = |[least, most]: &[Mass; 2]| range(&least.listed(units), &most.listed(units));
            drilled(day, pieces.map_or_else(|| day.spawn.as_ref().map(weight).map_err(Clone::clone), Ok))
        })
        .number("Wax", |day| drilled(day, day.wax.clone().map(|wax| wax.listed(units))))
        .number("Hours", |day| drilled(day, day.work.as_ref().map(hours_words).map_err(Gap::clone)))
        .done()
}

/// What the days of a wish rest on: on a model where a stretch of them does.
fn basis(day: &Day, context: &Context<'_>) -> Basis {
    let findings = context.findings;
    let found = findings.inoculations().iter().filter(|found| found.mushroom.id == day.strain.mushroom.id);
    let bases = found.flat_map(|found| {
        let felling = &findings.fellings()[found.felling];
        found.carried.iter().map(move |carried| found.basis(felling, carried))
    });
    bases.min().unwrap_or(Basis::Dated)
}

/// Lots whose own rest does not reach the day, each once with all the stretches that it may be filled in.
fn apart(context: &Context<'_>) -> Vec<String> {
    let units = context.units();
    let days = context.findings.days().iter().filter_map(|day| Some((day.window?, &day.apart)));
    let mut lots = BTreeMap::new();
    for (window, (lot, from, to)) in days.flat_map(|(window, apart)| apart.iter().map(move |lot| (window, lot))) {
        let felled = lot.record.felled.map_or_else(String::new, |day| format!("felled {}; ", day.show(units)));
        lots.entry((&lot.record.name, felled, *from, *to)).or_insert_with(BTreeSet::new).insert(window);
    }
    lots.into_iter()
        .map(|((name, felled, from, to), windows)| {
            let rested = date::between(from, to, units);
            format!("{name}: {felled}our rest would end {rested}, {}", until_filled(to, &windows, units))
        })
        .collect()
}

/// What to do with logs that are rested by a day until the stretches in which they may be filled.
fn until_filled(rested: Date, windows: &BTreeSet<(Date, Date)>, units: Units) -> String {
    let ahead: Vec<(Date, Date)> = windows.iter().copied().filter(|(opens, _)| rested < *opens).collect();
    let Some((opens, _)) = ahead.first() else {
        let last = windows.iter().map(|(_, closes)| *closes).max();
        let closes = last.map_or_else(String::new, |closes| closes.show(units));
        return format!("after inoculation ends on {closes}; move the day or the rest");
    };
    let months = rounded(f64::from(opens.ordinal() - rested.ordinal()) / 30.4, 0);
    let stretches: Vec<String> =
        ahead.iter().map(|(opens, closes)| format!("{} to {}", opens.show(units), closes.show(units))).collect();
    format!(
        "before inoculation begins. Keep them shaded, off the soil and covered against drying, and fill them from {}, \
         about {months} months later; sources differ on so long a rest",
        stretches.join(" or ")
    )
}

/// Hours in whole numbers, with a decimal where they are few.
fn hours_words(time: &Duration) -> String {
    format!("{} hours", rounded(time.hours(), usize::from(time.hours() < 5.0)))
}

/// The pattern of the sheet, and the packages of its spawn.
fn pattern(filling: &Filling, context: &Context<'_>) -> Cell {
    let units = context.units();
    let length = context.book.farm.record.log.length.show(units);
    let (along, between) = (filling.pattern.along.show(units), filling.between.show(units));
    let holes = format!("Logs {length} long, holes {along} apart along the log and {between} between rows (");
    let rate = filling.rate.as_ref().map(|rate| {
        let package = rate.package.show(units);
        cell![format!(" Sawdust spawn in packages of {package} ("), Cite::by(rate, context), ")."]
    });
    cell![holes, Cite::by(&filling.pattern, context), ").", rate]
}

/// The whole of the day.
fn total(context: &Context<'_>) -> Option<Cell> {
    let units = context.units();
    let found = day::total(context.findings)?;
    let worked = |text: String| Figure::worked(text, &Place::new(Topic::Inoculation, "day"), context);
    let sum = worked(format!("{}, {}", count(found.logs, "log", "logs"), count(found.holes, "hole", "holes")));
    let wax = found.wax.ok().map(|wax| cell![", ", worked(wax.show(units)), " of wax"]);
    let hours = found.work.ok().map(|time| cell![", ", worked(hours_words(&time)), " of work"]);
    let apiece = found
        .apiece
        .zip(context.book.farm.record.work.hands)
        .map(|(time, hands)| cell![": ", worked(hours_words(&time)), format!(" each for {hands} people")]);
    Some(cell![Part::Strong(sum.into()), wax, hours, apiece, "."])
}

/// The tools of each step that is done on the day, in the order of the work.
fn tools(context: &Context<'_>) -> Vec<(String, String)> {
    let Some(method) = context.book.methods.get(logs::DRILLED) else { return Vec::new() };
    let on_the_day = |step: &&crate::record::method::Step| {
        !step.tools.is_empty()
            && !matches!(step.task, Some(Task::Survey | Task::Felling | Task::Bucking | Task::Soaking | Task::Harvest))
    };
    let steps = method.record.steps.iter().filter(on_the_day);
    steps.map(|step| (step.title.clone(), and(&step.tools))).collect()
}

/// A pattern for the same spawn that gives the size of its holes: the filling's own, or else the first of the method.
fn sized<'a>(filling: &'a Filling, context: &'a Context<'_>) -> Option<(&'a Pattern, &'a Length, &'a Length)> {
    let others = context.book.methods.get(logs::DRILLED).into_iter().flat_map(|method| &method.record.patterns);
    let same = others.filter(|pattern| pattern.spawn.contains(&filling.form));
    let size = |pattern: &'a Pattern| Some((pattern, pattern.hole_diameter.as_ref()?, pattern.hole_depth.as_ref()?));
    [&filling.pattern].into_iter().chain(same).find_map(size)
}

/// The log of a filling with its holes, drawn to scale and in words.
fn drawing(filling: &Filling, context: &Context<'_>) -> (String, Vec<(&'static str, String)>) {
    let units = context.units();
    let pattern = &filling.pattern;
    let rows = holes::rows(&filling.diameter, &filling.between);
    let measure = |length: &Length| (length.inches(), length.show(units));
    let hole = sized(filling, context);
    let log = Log {
        diameter: measure(&filling.diameter),
        length: measure(&filling.length),
        along: measure(&pattern.along),
        between: measure(&filling.between),
        hole: hole.map_or(0.0, |(_, across, _)| across.inches()),
        deep: hole.map_or(0.0, |(.., deep)| deep.inches()),
        rows,
    };
    let size = hole.map(|(by, across, deep)| {
        let (across, deep) = (across.show(units), deep.show(units));
        format!("{across} across, {deep} deep ({}); fit the bit to your spawn", Cite::by(by, context).words())
    });
    let twin = vec![
        ("Log", format!("{} thick, {} long", log.diameter.1, log.length.1)),
        ("Along a row", log.along.1.clone()),
        ("Between rows", format!("{}: {rows} rows round the log", log.between.1)),
        ("Row to row", "each row begins half a spacing on".to_owned()),
        ("Hole", size.unwrap_or_else(|| "none of our sources gives its size".to_owned())),
    ];
    (log::svg("holes", "A log with its holes, from the side and from the end", &log), twin)
}

fn size(fillings: &[&Filling], context: &Context<'_>) -> Option<Size> {
    let first = fillings.first()?;
    let rows: Vec<Row> = fillings.iter().map(|filling| row(filling, context)).collect();
    Some(Size {
        diameter: first.diameter.show(context.units()),
        holes: Figure::worked(first.whole_holes().to_string(), &Place::new(Topic::Inoculation, "holes"), context),
        priced: rows.iter().any(|row| row.price.is_some()),
        rows,
    })
}

/// A number of logs; one that stands there only for who asks for it leads nowhere, since all of them lead to the same working.
fn row(filling: &Filling, context: &Context<'_>) -> Row {
    let units = context.units();
    let fine = !logs::FEW.contains(&filling.logs);
    let worked = |text: String, part| Figure::worked(text, &Place::new(Topic::Inoculation, part), context);
    let figure = |text: String, part: &'static str| if fine { Figure::plain(text) } else { worked(text, part) };
    let all = filling.all_spawn();
    let (spawn, packages) = match (filling.need.as_ref(), &all) {
        (Ok(need), Some([least, most])) => (
            figure(range(&least.listed(units), &most.listed(units)), "spawn"),
            figure(range(&need.packages_least.to_string(), &need.packages_most.to_string()), "spawn"),
        ),
        (Ok(_), None) => (Figure::gap("–"), Figure::gap("–")),
        (Err(gap), _) => (Figure::gap(gap.to_string()), Figure::gap("–")),
    };
    let price = all.and_then(|[_, most]| purchase::price_of_sawdust(&most, context.findings));
    Row {
        logs: filling.logs,
        holes: figure(filling.all_holes().to_string(), "holes"),
        spawn,
        packages,
        price: price.map(|ends| {
            let [least, most] = ends.map(|end| money(end, context));
            range(&least, &most)
        }),
        fine,
    }
}
