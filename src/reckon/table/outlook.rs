//! The tables of what is ordered, what a wish needs and what a log costs.

use super::{Grid, Sheet};
use crate::{
    quantity::{Mass, count},
    reckon::{
        Findings, Gap,
        findings::{MoneyFinding, PurchaseFinding, outlook::Ask, purchase::holds},
        money::{Budget, PUBLISHED},
    },
    record::{
        mushroom::{LogYield, Over},
        plan::Offer,
    },
};

/// A purchase, and one of its packages; what is left over stands at the last.
#[derive(Clone, Copy)]
struct Order<'a> {
    found: &'a PurchaseFinding,
    package: Option<(&'a Offer, u32)>,
    last: bool,
}

impl<'a> Order<'a> {
    /// A row for each package, or one where there is none.
    fn all(found: &'a PurchaseFinding) -> Vec<Self> {
        let of = |package| Order { found, package, last: false };
        let mut rows: Vec<Self> = found.packages().map(Some).map(of).collect();
        match rows.last_mut() {
            Some(last) => last.last = true,
            None => rows.push(of(None)),
        }
        rows
    }

    fn remark(self) -> Option<String> {
        let PurchaseFinding { need, bought, .. } = self.found;
        let unpriced = bought.as_ref().is_ok_and(|bought| bought.cost.is_none());
        let unpriced =
            unpriced.then_some("no cost: no package on offer has a price, so the set that leaves least over stands");
        need.as_ref().err().or(bought.as_ref().err()).map(Gap::to_string).or(unpriced.map(ToOwned::to_owned))
    }
}

pub fn supply(findings: &Findings) -> Grid {
    let units = findings.choice.units;
    Sheet::of(findings.purchases().iter().flat_map(Order::all))
        .column("item", |of| of.found.item.words())
        .column("package", |of| of.package.map(|(offer, _)| holds(offer, units)))
        .column("count", |of| of.package.map(|(_, packages)| packages))
        .number("cost", 2, |of| of.package.and_then(|(offer, packages)| Some(offer.price? * f64::from(packages))))
        .column("left_over", |of| of.last.then(|| Some(of.found.left_over()?.show(units))).flatten())
        .column("strain", |of| of.found.strain.as_ref().map(|strain| &strain.id))
        .column("need", |of| of.found.need.as_ref().ok().map(|need| need.show(units)))
        .column("order_by", |of| of.found.order_by)
        .column("use_by", |of| of.found.use_by)
        .column("remark", Order::remark)
        .grid(units)
}

pub fn planning(findings: &Findings) -> Grid {
    let units = findings.choice.units;
    Sheet::of(findings.planning())
        .column("strain", |of| &of.strain.id)
        .column("asks", |of| match &of.asks {
            Ask::AWeek(mass) => format!("{} a week", mass.show(units)),
            Ask::Guests(guests) => count(*guests, "guest", "guests"),
        })
        .column("source", |of| of.by.as_ref().map(|(by, _)| by.source.as_str()))
        .column("mark", |of| of.by.as_ref().map(|(by, _)| by.mark.words()))
        .column("a_log", |of| of.by.as_ref().map(|(by, end)| end.of(by)))
        .column("over", |of| of.by.as_ref().map(|(by, _)| over(by.over)))
        .column("logs", |of| of.logs.as_ref().ok().map(|[all, _]| *all))
        .column("logs_soaked_or_new", |of| of.by.as_ref().and(of.logs.as_ref().ok()).map(|[_, each]| *each))
        .column("trees", |of| of.trees)
        .column("tank", |of| of.tank)
        .to(1)
        .column("ground", |of| of.ground.as_ref())
        .column("remark", |of| of.logs.as_ref().err().map(Gap::to_string))
        .grid(units)
}

/// What a yield was counted over, in words.
#[must_use]
pub const fn over(over: Over) -> &'static str {
    match over {
        Over::Life => "a life",
        Over::FirstSeason => "the first season",
        Over::Flush => "a flush",
    }
}

/// What a log costs here and may bring by one yield, or by a published budget.
#[derive(Clone, Copy)]
enum Cost<'a> {
    Own(&'a MoneyFinding, Option<&'a (LogYield, [f64; 2])>),
    Published(&'a Budget),
}

impl<'a> Cost<'a> {
    /// A row for each yield, or one where there is none.
    fn all(found: &'a MoneyFinding) -> Vec<Self> {
        match found.returns.as_slice() {
            [] => vec![Self::Own(found, None)],
            returns => returns.iter().map(|of| Self::Own(found, Some(of))).collect(),
        }
    }

    fn own(self) -> Option<&'a MoneyFinding> {
        match self {
            Self::Own(found, _) => Some(found),
            Self::Published(_) => None,
        }
    }

    fn returns(self) -> Option<[f64; 2]> {
        match self {
            Self::Own(_, by) => by.map(|(_, returns)| *returns),
            Self::Published(budget) => budget.returns,
        }
    }

    fn remark(self) -> Option<String> {
        let found = match self {
            Self::Own(found, _) => found,
            Self::Published(budget) => return Some(budget.says.to_owned()),
        };
        let no_price = "no return: the price of its mushroom is not recorded in farm.yaml";
        found.cost.as_ref().err().map(Gap::to_string).or_else(|| found.price.is_none().then(|| no_price.to_owned()))
    }
}

pub fn money(findings: &Findings) -> Grid {
    let own = findings.money().iter().flat_map(Cost::all);
    Sheet::of(own.chain(PUBLISHED.iter().map(Cost::Published)))
        .column("of", |of| if of.own().is_some() { "this farm" } else { "published budget, in dollars of its day" })
        .column("strain", |of| of.own().map(|found| &found.strain.id))
        .column("logs", |of| of.own().map(|found| found.logs))
        .number("spawn_a_log", 2, |of| of.own()?.spawn.clone().ok())
        .number("wax_a_log", 2, |of| of.own()?.wax.clone().ok())
        .number("hours_a_log", 2, |of| Some(of.own()?.work.as_ref().ok()?.hours()))
        .number("cost_a_log", 2, |of| match of {
            Cost::Own(found, _) => found.cost.as_ref().ok().copied(),
            Cost::Published(budget) => budget.cost,
        })
        .column("source", |of| match of {
            Cost::Own(_, by) => by.map(|(by, _)| by.source.as_str()),
            Cost::Published(budget) => Some(budget.source),
        })
        .column("mark", |of| match of {
            Cost::Own(_, by) => by.map(|(by, _)| by.mark.words()),
            Cost::Published(budget) => Some(budget.mark.words()),
        })
        .number("return_least", 2, |of| of.returns().map(|[least, _]| least))
        .number("return_most", 2, |of| of.returns().map(|[_, most]| most))
        .column("break_even", |of| match of {
            Cost::Own(found, _) => found.break_even.clone(),
            Cost::Published(budget) => budget.break_even_pounds.map(Mass::of_pounds),
        })
        .column("remark", Cost::remark)
        .grid(findings.choice.units)
}
