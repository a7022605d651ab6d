//! The working behind the density of stands and the room of trees.

use serde::Serialize;

use super::formula::{Formula, winter};
use crate::{
    page::{Context, part::Anchor},
    quantity::{BasalArea, Units, measure::rounded},
    reckon::{
        density::{self, Density},
        findings::{StandFinding, stands::Released},
    },
    record::Kind,
};

/// The working behind stands.
#[derive(Debug, Serialize)]
pub struct View {
    formulas: Vec<Formula>,
    release: Formula,
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
        formulas: vec![winter::basal_area(), winter::quadratic_mean(), winter::removal()],
        release: winter::release(),
        stands: context.findings.stands().iter().map(|found| stand(found, context)).collect(),
    }
}

fn stand(found: &StandFinding, context: &Context<'_>) -> Stand {
    let measured = &found.measured;
    let record = &measured.stand.record;
    let mut lines = Vec::new();
    if let Some(prism) = &record.prism {
        let counted: u32 = prism.counts.iter().sum();
        lines.push(format!("f = {}, n = {counted}, k = {}", prism.factor.show(Units::Us), prism.counts.len()));
    } else if let Some(plots) = &record.plots {
        lines.push(format!(
            "{} plots of {}, {} trees",
            plots.number,
            plots.size.show(context.units()),
            plots.diameters.len()
        ));
    }
    if let Ok(density) = &measured.density {
        lines.push(format!("before: {}", figures(density)));
    }
    if let (Ok(acres), Ok(allowance)) = (&measured.acres, measured.allowance()) {
        let target = measured.target().map_or_else(|| "none".to_owned(), |target| rounded(target, 1));
        lines.push(format!("T = {target}, a = {} ac, so R = {} ft²", rounded(*acres, 2), rounded(allowance, 2)));
    }
    let taken: Vec<f64> =
        found.felled.iter().map(|index| context.findings.trees()[*index].tree.record.dbh.inches()).collect();
    let out: f64 = taken.iter().map(|inches| density::tree(*inches)).sum();
    lines.push(format!("this winter {} trees come down, {} ft² in all", taken.len(), rounded(out, 2)));
    if let Ok(after) = &found.after {
        lines.push(format!("after: {}", figures(after)));
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

fn figures(density: &Density) -> String {
    let area = BasalArea::of_square_feet_an_acre(density.basal_area);
    let mut words = vec![format!("BA = {} ({})", area.show(Units::Us), area.show(Units::Metric))];
    if let Some([trees, sum]) = density.trees {
        words.push(format!("N = {}, ∑D = {} in", rounded(trees, 1), rounded(sum, 0)));
    }
    words.extend(density.quadratic_mean().map(|inches| format!("Q = {} in", rounded(inches, 2))));
    words.extend(density.stocking().map(|stocking| format!("S = {} %", rounded(stocking, 1))));
    words.join(", ")
}
