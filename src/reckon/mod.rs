//! What the trade asks, reckoned: pure functions of plain values, without I/O, clock or globals.
//!
//! | a grower asks | file | function | source of the formula |
//! |---|---|---|---|
//! | what grows on what, and do sources agree? | [`pairing`] | `consensus` | weighted median; consensus of Tastle & Wierman 2007 |
//! | when may I fell, when not? | [`season`] | `window`, `usual` | observed dates, dates of the year, crossings; circular sets of [`days`] |
//! | when do leaves colour and buds swell, where nobody wrote it down? | [`dormancy`] | `modelled` | Delpierre and others 2009; the mean passing 5 °C |
//! | by how much do dates move from place to place? | [`hopkins`] | `later` | Hopkins 1918, a folk rule, only where asked for |
//! | how warm is a day, and how do days scatter? | [`climate`], [`normal`] | `Curve::of`, `Air`, `within` | a quadratic spline that keeps each month's mean; the normal distribution |
//! | how much warmth has a day? | [`degree_days`] | `average`, `single_sine` | average; Baskerville & Emin 1969 |
//! | when does the air suit a strain? | [`fruiting`], by [`week`] | `suitable`, `stretches` | the normal distribution; ISO 8601 |
//! | when does a log first fruit, what should it give? | [`life`] | `first`, `year_by_year` | each source's spans and yields; MD-11 |
//! | which logs go into the tank each week? | [`rota`] | `plan` | UK-85; CORN-FORCE |
//! | how long is the day? | [`daylight`] | `day_length`, `by_day` | NOAA; Forsythe and others 1995 |
//! | how long do logs rest, and by when must they be inoculated? | [`rest`] | `carry` | the rest rows of each source, carried forward |
//! | how many holes? | [`holes`] | `by_area` and others | geometry; rules of HRO09 and SAB-DEN |
//! | how much spawn and wax? | [`spawn`] | `need` | common practice: logs a package fills, by surface |
//! | what does a green log weigh? | [`weight`] | `log` | Miles & Smith 2009 by way of FIA; Wood Handbook eq. 4-14 |
//! | may one person lift it? | [`lifting`] | `limit` | Waters, Putz-Anderson & Garg 1994, revised 2021 (NIOSH 94-110) |
//! | how wet is it? | [`moisture`] | `too_dry`, `weight_at` and others | standard formulas; UK-83 for the ten per cent; Wood Handbook eq. 4-3, 4-4 |
//! | how thick is a stem at any height? | [`taper`] | `Stem::outside` | Clark, Souter & Schlaegel 1991; Raile 1982; Ormerod 1973 |
//! | how many logs does a tree give? | [`bolts`] | `cut` | the stem model, walked up from the stump |
//! | how many of these does this farm get? | [`gain`] | `Gain::of`, `share` | the ratio of logs cut to logs reckoned |
//! | what is the volume of a log? | [`volume`] | `newton` and others | Huber, Smalian, Newton |
//! | how dense is a stand, before and after? | [`density`] | `Density`, `allowance` | prism and plot formulas; Gingrich 1967 |
//! | how fast does a wood grow, and how many stems reach log size? | [`growth`] | `a_year`, `between`, `into`, `last` | Teck & Hilt 1991; the balance of two counts |
//! | which tree gains room? | [`release`] | `open_sides`, `competition` | crowns by diameter; Hegyi 1974 |
//! | which trees, and which log to which strain? | [`allocation`] | `solve` | integer programming in stages |
//! | where are the logs now, and what is still to be done? | [`ledger`] | `wood`, `yard`, `shares` | bookkeeping |
//! | which packages are cheapest? | [`supply`] | `cheapest` | dynamic programming |
//! | how many logs does a wish need? | [`planning`] | `by_flush`, `by_life` | each published yield, reckoned back; UK-85 for the cycle |
//! | what does a log cost and bring, what was it sold for? | [`money`] | `cost`, `worth`, `sold_for` | the farm's prices; published budgets as a check |
//! | what do totems, stumps and beds take? | [`beds`] | `totem_wood` and others | geometry; CORN-TOTEM |
//! | which tree is this? | [`tree_key`] | `Matrix::key` | dynamic programming over subsets; Huffman 1952 as the bound |
//! | in which order does one walk? | [`walk`] | `walk` | nearest neighbour with two-leg exchanges |
//! | what stands near a place? | [`near`] | `Near::nearest`, `within` | the R*-tree, Beckmann and others 1990 |
//! | how much protective gear does a work day take? | [`kit`] | `pieces` | counting heads |
//! | how thick is the bark? | [`bark`] | `thickness` | Clark, Souter & Schlaegel 1991 |
//!
//! [`findings`] asks all of this of a book; [`table`] lays findings out as flat rows; [`gap`] says why a figure is missing;
//! [`formula`] is the constant beside a function and the figure that it makes, [`topic`] tells which formulas belong together.

pub mod allocation;
pub mod bark;
pub mod beds;
pub mod bolts;
pub mod climate;
pub mod daylight;
pub mod days;
pub mod degree_days;
pub mod density;
pub mod dormancy;
pub mod findings;
pub mod formula;
pub mod fruiting;
pub mod gain;
pub mod gap;
pub mod growth;
pub mod holes;
pub mod hopkins;
pub mod kit;
pub mod ledger;
pub mod life;
pub mod lifting;
pub mod moisture;
pub mod money;
pub mod near;
pub mod normal;
pub mod pairing;
pub mod planning;
pub mod release;
pub mod rest;
pub mod rota;
pub mod season;
pub mod spawn;
pub mod supply;
pub mod table;
pub mod taper;
pub mod topic;
pub mod tree_key;
pub mod volume;
pub mod walk;
pub mod week;
pub mod weight;

pub use findings::Findings;
pub use gap::Gap;
pub use topic::Topic;
