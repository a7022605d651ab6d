//! What to order: the packages, by when, and what is left over.

use serde::Serialize;

use crate::page::{
    Context, Page,
    part::{
        Anchor, Figure, capital,
        caution::{self, Caution},
        purchase::{amount_words, holds, money},
    },
};
use crate::{
    quantity::Date,
    reckon::{Topic, findings::PurchaseFinding, formula::Place},
    record::caution::Task,
};

/// The order.
#[derive(Debug, Serialize)]
pub struct View {
    lines: Vec<Line>,
    total: Option<Figure>,
    unpriced: bool,
    cautions: Vec<Caution>,
    working: String,
    day: String,
}

/// One thing to order.
#[derive(Debug, Serialize)]
struct Line {
    item: String,
    strain: Option<Anchor>,
    need: Figure,
    packages: Vec<Package>,
    gap: Option<String>,
    cost: Option<Figure>,
    left_over: Option<Figure>,
    order_by: Option<String>,
    use_by: Option<String>,
    too_short: Option<String>,
}

/// A package, and how many of it.
#[derive(Debug, Serialize)]
struct Package {
    count: u32,
    holds: String,
}

/// The view of the order.
#[must_use]
pub fn view(context: &Context<'_>) -> View {
    let purchases = context.findings.purchases();
    let costs: Vec<Option<u64>> =
        purchases.iter().filter_map(|found| found.bought.as_ref().ok()).map(|bought| bought.cost).collect();
    let working = Place::new(Topic::Supply, "packages");
    let sum: u64 = costs.iter().flatten().sum();
    View {
        lines: purchases.iter().map(|found| line(found, context)).collect(),
        total: (sum > 0).then(|| Figure::worked(money(sum as f64 / 100.0, context), &working, context)),
        unpriced: costs.iter().any(Option::is_none) || purchases.iter().any(|found| found.bought.is_err()),
        cautions: caution::for_tasks(&[Task::Waxing], caution::is_general, context),
        working: context.route.working(&working),
        day: context.route.to(&Page::Inoculation),
    }
}

fn line(found: &PurchaseFinding, context: &Context<'_>) -> Line {
    let units = context.units();
    let working = Place::new(Topic::Supply, found.id());
    let bought = found.bought.as_ref().ok();
    let show = |date: Date| date.show();
    Line {
        item: capital(found.item.words()),
        strain: found.strain.as_ref().map(|strain| Anchor::strain(strain, context)),
        need: match &found.need {
            Ok(need) => Figure::worked(amount_words(need, units), &working, context),
            Err(gap) => Figure::gap(gap.to_string()),
        },
        packages: found.packages().map(|(offer, count)| Package { count, holds: holds(offer, units) }).collect(),
        gap: found.need.is_ok().then(|| found.bought.as_ref().err().map(ToString::to_string)).flatten(),
        cost: bought.map(|bought| match bought.cost {
            Some(cost) => Figure::worked(money(cost as f64 / 100.0, context), &working, context),
            None => Figure::gap("no package has a price"),
        }),
        left_over: bought.zip(found.need.as_ref().ok()).map(|(bought, need)| {
            Figure::worked(amount_words(&need.of_whole(bought.left_over), units), &working, context)
        }),
        order_by: found.order_by.map(show),
        use_by: found.use_by.map(show),
        too_short: found.use_by.zip(found.window).filter(|(use_by, (_, to))| use_by < to).map(|(_, (_, to))| {
            format!("keeps no longer, though inoculation goes on to {}: order the rest later", to.show())
        }),
    }
}
