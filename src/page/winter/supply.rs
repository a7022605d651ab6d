//! What to order: the packages, by when, and what is left over.

use serde::Serialize;

use crate::page::{
    Context, Page,
    part::{
        Anchor, Figure, capital,
        caution::{self, Caution},
        purchase::money,
    },
};
use crate::{
    quantity::Date,
    reckon::{
        Topic,
        findings::{
            PurchaseFinding,
            purchase::{holds, total},
        },
        formula::Place,
    },
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
    let working = Place::new(Topic::Supply, "packages");
    View {
        lines: purchases.iter().map(|found| line(found, context)).collect(),
        total: total(purchases).map(|cost| Figure::worked(money(cost, context), &working, context)),
        unpriced: purchases.iter().any(|found| found.cost().is_err()),
        cautions: caution::for_tasks(&[Task::Waxing], caution::is_general, context),
        working: context.route.working(&working),
        day: context.route.to(&Page::Inoculation),
    }
}

fn line(found: &PurchaseFinding, context: &Context<'_>) -> Line {
    let units = context.units();
    let working = Place::new(Topic::Supply, found.id());
    let show = |date: Date| date.show();
    Line {
        item: capital(found.item.words()),
        strain: found.strain.as_ref().map(|strain| Anchor::strain(strain, context)),
        need: match &found.need {
            Ok(need) => Figure::worked(need.show(units), &working, context),
            Err(gap) => Figure::gap(gap.to_string()),
        },
        packages: found.packages().map(|(offer, count)| Package { count, holds: holds(offer, units) }).collect(),
        gap: found.need.is_ok().then(|| found.bought.as_ref().err().map(ToString::to_string)).flatten(),
        cost: found.bought.as_ref().ok().map(|_| match found.cost() {
            Ok(cost) => Figure::worked(money(cost, context), &working, context),
            Err(_) => Figure::gap("no package has a price"),
        }),
        left_over: found.left_over().map(|left| Figure::worked(left.show(units), &working, context)),
        order_by: found.order_by.map(show),
        use_by: found.use_by.map(show),
        too_short: found.use_by.zip(found.window).filter(|(use_by, (_, to))| use_by < to).map(|(_, (_, to))| {
            format!("keeps no longer, though inoculation goes on to {}: order the rest later", to.show())
        }),
    }
}
