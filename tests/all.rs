//! Every test, in one binary.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot go on has failed")]

mod harness;

mod cards;
mod cautions;
mod cli;
mod columns;
mod dates;
mod doubt;
mod edition;
mod evidence;
mod faults;
mod finder;
mod fruits;
mod gain;
mod growth;
mod increment;
mod inoculation;
mod key_pages;
mod knowledge;
mod ledger;
mod lifting;
mod pages;
mod pairing;
mod paper;
mod photos;
mod places;
mod play;
mod publish;
mod questions;
mod readme;
mod refusals;
mod rescue;
mod sales;
mod season;
mod spawn;
mod stands;
mod strange;
mod tidy;
mod timber;
mod tree_key;
mod typed;
mod weight;
mod winter;
mod words;
mod yard;
mod yards;
mod year;
