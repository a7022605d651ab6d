//! What the trade asks, reckoned: pure functions of plain values, without I/O, clock or globals.
//!
//! | a grower asks | file | source of the formula |
//! |---|---|---|
//! | what grows on what, and do sources agree? | [`pairing`] | weighted median; consensus of Tastle & Wierman 2007 |
//! | when may I fell, when not? | [`season`] | observed dates, dates of the year, crossings; circular sets of [`days`] |
//! | when do leaves colour and buds swell, where nobody wrote it down? | [`dormancy`] | Delpierre and others 2009; the mean passing 5 °C |
//! | by how much do dates move from place to place? | [`hopkins`] | Hopkins 1918, a folk rule, only where asked for |
//! | how warm is a day, and how do days scatter? | [`climate`], [`normal`] | a quadratic spline that keeps each month's mean; the normal distribution |
//! | how much warmth has a day? | [`degree_days`] | average; Baskerville & Emin 1969 |
//! | when does the air suit a strain? | [`fruiting`], by [`week`] | the normal distribution; ISO 8601 |
//! | when does a log first fruit, what should it give? | [`life`] | each source's spans and yields; MD-11 |
//! | which logs go into the tank each week? | [`rota`] | UK-85; CORN-FORCE |
//! | how long is the day? | [`daylight`] | NOAA; Forsythe and others 1995 |
//! | how long do logs rest, and by when must they be inoculated? | [`rest`] | the rest rows of each source, carried forward |
//! | how many holes? | [`holes`] | geometry; rules of HRO09 and SAB-DEN |
//! | how much spawn and wax? | [`spawn`] | common practice: logs a package fills, by surface |
//! | what does a green log weigh? | [`weight`] | Miles & Smith 2009 by way of FIA; Wood Handbook eq. 4-14 |
//! | may one person lift it? | [`lifting`] | Waters, Putz-Anderson & Garg 1994, revised 2021 (NIOSH 94-110) |
//! | how wet is it? | [`moisture`] | standard formulas; UK-83 for the ten per cent; Wood Handbook eq. 4-3, 4-4 |
//! | how thick is a stem at any height? | [`taper`] | Clark, Souter & Schlaegel 1991; Raile 1982; Ormerod 1973 |
//! | how many logs does a tree give? | [`bolts`] | the stem model, walked up from the stump |
//! | what is the volume of a log? | [`volume`] | Huber, Smalian, Newton |
//! | how dense is a stand, before and after? | [`density`] | prism and plot formulas; Gingrich 1967 |
//! | which tree gains room? | [`release`] | crowns by diameter; Hegyi 1974 |
//! | which trees, and which log to which strain? | [`allocation`] | integer programming in stages |
//! | which packages are cheapest? | [`supply`] | dynamic programming |
//! | how many logs does a wish need? | [`planning`] | each published yield, reckoned back; UK-85 for the cycle |
//! | what does a log cost and bring? | [`money`] | the farm's prices; published budgets as a check |
//! | what do totems, stumps and beds take? | [`beds`] | geometry; CORN-TOTEM |
//! | in which order does one walk? | [`walk`] | nearest neighbour with two-leg exchanges |
//! | what stands near a place? | [`near`] | the R*-tree, Beckmann and others 1990 |
//! | how much protective gear does a work day take? | [`kit`] | counting heads |
//! | how thick is the bark? | [`bark`] | Clark, Souter & Schlaegel 1991 |
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
pub mod gap;
pub mod holes;
pub mod hopkins;
pub mod kit;
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
pub mod volume;
pub mod walk;
pub mod week;
pub mod weight;

pub use findings::Findings;
pub use gap::Gap;
pub use topic::Topic;
