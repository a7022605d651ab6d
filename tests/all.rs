//! Every test, in one binary.

mod harness;

mod cli;
mod evidence;
mod faults;
mod inoculation;
mod pages;
mod pairing;
mod publish;
mod readme;
mod season;
mod strange;
mod tidy;
mod weight;
