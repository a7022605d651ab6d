//! The tables of what is ordered, what a wish needs and what a log costs.

use uom::si::{f64 as si, volume::cubic_meter};

use super::{Grid, Sheet};
use crate::{
    quantity::{Area, Mass, Units, count},
    reckon::{
        Findings, Gap,
        findings::{
            MoneyFinding, PurchaseFinding,
            outlook::{Ask, End},
            purchase::Amount,
        },
        money::{Budget, PUBLISHED},
    },
    record::{
        mushroom::{LogYield, Over},
        plan::Offer,
    },
};

/// An amount in words.
fn amount(amount: &Amount, units: Units) -> String {
    match amount {
        Amount::Weight(mass) => mass.show(units),
        Amount::Pieces(pieces) => count(*pieces, "piece", "pieces"),
    }
}

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

    fn left_over(self) -> Option<Amount> {
        let (bought, need) = self.found.bought.as_ref().ok().zip(self.found.need.as_ref().ok())?;
        self.last.then(|| need.of_whole(bought.left_over))
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
    let holds = |(offer, _): (&Offer, _)| {
        let weight = offer.weight.as_ref().map(|weight| weight.show(units));
        weight.or(offer.pieces.map(|pieces| count(pieces, "piece", "pieces"))).unwrap_or_default()
    };
    Sheet::of(findings.purchases().iter().flat_map(Order::all))
        .column("item", |of| of.found.item.words())
        .column("package", |of| of.package.map(holds))
        .column("count", |of| of.package.map(|(_, packages)| packages))
        .number("cost", 2, |of| of.package.and_then(|(offer, packages)| Some(offer.price? * f64::from(packages))))
        .column("left_over", |of| of.left_over().map(|left| amount(&left, units)))
        .column("strain", |of| of.found.strain.as_ref().map(|strain| &strain.id))
        .column("need", |of| of.found.need.as_ref().ok().map(|need| amount(need, units)))
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
        .column("a_log", |of| {
            of.by.as_ref().map(|(by, end)| match end {
                End::Low => &by.a_log.low,
                End::High => &by.a_log.high,
            })
        })
        .column("over", |of| of.by.as_ref().map(|(by, _)| over(by.over)))
        .column("logs", |of| of.logs.as_ref().ok().map(|[all, _]| *all))
        .column("logs_soaked_or_new", |of| of.by.as_ref().and(of.logs.as_ref().ok()).map(|[_, each]| *each))
        .column("trees", |of| of.trees)
        .column("tank", |of| of.tank.map(si::Volume::new::<cubic_meter>))
        .to(1)
        .column("ground", |of| of.ground.map(Area::of_square_metres))
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

    fn part(self, index: usize) -> Option<f64> {
        self.own()?.parts[index].as_ref().ok().copied()
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
        let gap = found.parts.iter().chain([&found.cost]).find_map(|part| part.as_ref().err());
        gap.map(Gap::to_string).or_else(|| found.price.is_none().then(|| no_price.to_owned()))
    }
}

pub fn money(findings: &Findings) -> Grid {
    let own = findings.money().iter().flat_map(Cost::all);
    Sheet::of(own.chain(PUBLISHED.iter().map(Cost::Published)))
        .column("of", |of| if of.own().is_some() { "this farm" } else { "published budget, in dollars of its day" })
        .column("strain", |of| of.own().map(|found| &found.strain.id))
        .column("logs", |of| of.own().map(|found| found.logs))
        .number("spawn_a_log", 2, |of| of.part(0))
        .number("wax_a_log", 2, |of| of.part(1))
        .number("hours_a_log", 2, |of| of.part(2))
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
