//! The working behind the density of stands and the room of trees.

use serde::Serialize;

use super::formula::{Cited, winter};
use crate::{
    page::{Context, part::Anchor},
    quantity::{Area, BasalArea, Length, Units, count, measure::rounded},
    reckon::{
        density::{self, Density},
        findings::{StandFinding, stands::Released},
    },
    record::Kind,
};

/// The working behind stands.
#[derive(Debug, Serialize)]
pub struct View {
    formulas: Vec<Cited>,
    release: Cited,
    stands: Vec<Stand>,
}

/// One stand.
#[derive(Debug, Serialize)]
struct Stand {
    id: String,
    link: Anchor,
    lines: Vec<String>,
    gap: Option<String>,
}

/// The view of the working.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    View {
        formulas: vec![
            winter::basal_area().cited(context),
            winter::quadratic_mean().cited(context),
            winter::removal().cited(context),
        ],
        release: winter::release().cited(context),
        stands: context.findings.stands().iter().map(|found| stand(found, context)).collect(),
    }
}

fn stand(found: &StandFinding, context: &Context<'_>) -> Stand {
    let measured = &found.measured;
    let record = &measured.stand.record;
    let units = context.units();
    let mut lines = Vec::new();
    if let Some(prism) = &record.prism {
        let counted: u32 = prism.counts.iter().sum();
        lines.push(format!("f = {}, n = {counted}, k = {}", prism.factor.show(units), prism.counts.len()));
    } else if let Some(plots) = &record.plots {
        let (number, trees) = (plots.number, plots.diameters.len());
        let plots_of = format!("{} of {}", count(number, "plot", "plots"), plots.size.show(units));
        lines.push(format!("{plots_of}, {}", count(trees, "tree", "trees")));
    }
    if let Ok(density) = &measured.density {
        lines.push(format!("before: {}", figures(density, units)));
    }
    if let (Some(area), Ok(allowance)) = (&record.area, measured.allowance()) {
        let target = record.target.as_ref().map_or_else(|| "none".to_owned(), |target| target.show(units));
        let allowed = Area::of_square_feet(allowance).stems(units);
        lines.push(format!("T = {target}, a = {}, so R = {allowed}", area.show(units)));
    }
    let taken: Vec<f64> =
        found.felled.iter().map(|index| context.findings.trees()[*index].tree.record.dbh.inches()).collect();
    let out = Area::of_square_feet(taken.iter().map(|inches| density::tree(*inches)).sum()).stems(units);
    lines.push(match taken.len() {
        1 => format!("this winter 1 tree comes down, {out}"),
        trees => format!("this winter {trees} trees come down, {out} in all"),
    });
    if let Ok(after) = &found.after {
        lines.push(format!("after: {}", figures(after, units)));
    }
    let press = |released: &Released| {
        let [now, then] = released.competition.map(|index| rounded(index, 2));
        format!("{} {now} to {then}", released.tag)
    };
    if !found.released.is_empty() {
        let pressed: Vec<String> = found.released.iter().map(press).collect();
        lines.push(format!("competition C of the trees that stay, before and after: {}", pressed.join("; ")));
    }
    Stand {
        id: measured.stand.id.clone(),
        link: Anchor { href: context.route.record(Kind::Stand, &measured.stand.id), text: record.name.clone() },
        lines,
        gap: measured.allowance().err().map(|gap| gap.to_string()),
    }
}

fn figures(density: &Density, units: Units) -> String {
    let area = BasalArea::of_square_feet_an_acre(density.basal_area);
    let mut words = vec![format!("BA = {}", area.show(units))];
    if let Some([trees, inches]) = density.trees {
        let [trees, across] = [trees, Length::of_inches(inches).number(units)].map(|sum| units.on_land(sum));
        let (unit, land) = (units.length(), units.land());
        words.push(format!("N = {} {land}, ∑D = {} {unit} {land}", rounded(trees, 1), rounded(across, 0)));
    }
    words.extend(density.quadratic_mean().map(|inches| format!("Q = {}", Length::of_inches(inches).show(units))));
    words.extend(density.stocking().map(|stocking| format!("S = {} %", rounded(stocking, 1))));
    words.join(", ")
}
