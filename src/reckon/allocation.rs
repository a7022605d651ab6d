//! Which trees come down, and which log goes to which strain?
//!
//! An integer program, solved in stages; each stage keeps what the earlier ones reached:
//!
//! 1. most wished-for logs placed;
//! 2. of these, most from lots that lie ready (no log placed is lost by this, since any logs that can be placed together
//!    can be part of a fullest placing);
//! 3. the highest sum of ratings over the placed logs;
//! 4. fewest trees, a clump of stems from one stump counting as one;
//! 5. the lowest sum of places in the order of tags, so that of equal answers the earlier tags come down;
//! 6. with these trees, the earlier wishes served first.
//!
//! Constraints: a wood gives no more logs than its lots and its felled trees hold; a strain gets no more than its wish; only
//! pairs that are allowed; a pair whose trees have no day to come down and be inoculated gets logs from lots alone; the
//! basal area taken from a stand is within its allowance. Only trees that may come down are handed in, so no other can.
//!
//! Branch and bound in one thread, stopped by a number of nodes and never by a clock, so that the answer is the same on every
//! machine. Every answer is checked again in whole numbers. Source: integer programming, as in any textbook; checked against
//! an independent solver.

use microlp::{ComparisonOp, LinearExpr, OptimizationDirection, Problem, SolutionStatus, SolveOptions, Variable};

use super::Gap;
use super::formula::Formula;

/// Nodes after which a stage stops and says how far it may be from the best.
const NODES: u64 = 20_000;
/// Trees in all the nodes of a stage, at most; of many trees fewer nodes are tried, since each takes longer.
const TREES: u64 = 4_000_000;

/// What there is and what is wished for. Woods are counted from nought.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// How many woods there are.
    pub woods: usize,
    /// Logs that lie ready, by wood.
    pub ready: Vec<u32>,
    /// What may come down, in the order of tags.
    pub trees: Vec<Candidate>,
    /// How much basal area may come out of each stand; `None` where it has not been measured.
    pub allowances: Vec<Option<f64>>,
    /// What is wished for.
    pub wishes: Vec<Wanted>,
}

/// A tree, or a clump of stems from one stump.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Its wood.
    pub wood: usize,
    /// Logs that it gives.
    pub logs: u32,
    /// Its stand, where it grows in one.
    pub stand: Option<usize>,
    /// Its basal area, in the unit of the allowances.
    pub basal_area: f64,
}

/// A number of logs for one strain.
#[derive(Debug, Clone, PartialEq)]
pub struct Wanted {
    /// How many logs.
    pub logs: u32,
    /// By wood: the pair, where it is allowed.
    pub pairs: Vec<Option<Pair>>,
}

/// A pair that is allowed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pair {
    /// Its rating, nought where nobody rated it.
    pub rating: u8,
    /// Whether trees may come down for it; else it gets logs that lie ready alone.
    pub from_trees: bool,
}

impl Wanted {
    fn pair(&self, wood: usize) -> Option<Pair> {
        self.pairs.get(wood).copied().flatten()
    }

    fn rating(&self, wood: usize) -> Option<u8> {
        self.pair(wood).map(|pair| pair.rating)
    }

    fn may_fell(&self, wood: usize) -> bool {
        self.pair(wood).is_some_and(|pair| pair.from_trees)
    }

    fn lots_alone(&self, wood: usize) -> bool {
        self.pair(wood).is_some_and(|pair| !pair.from_trees)
    }
}

/// What an answer reaches, compared stage by stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Value {
    /// Logs placed.
    pub placed: u32,
    /// Of these, logs from lots.
    pub from_lots: u32,
    /// Sum of ratings over the placed logs.
    pub ratings: u32,
    /// Trees felled.
    pub trees: u32,
}

/// Which trees come down, and which log goes where.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// For each candidate, whether it comes down.
    pub felled: Vec<bool>,
    /// For each wish, the logs of each wood.
    pub placed: Vec<Vec<u32>>,
    /// What it reaches.
    pub value: Value,
    /// By how much the first unfinished stage could be better, in its own logs, ratings, trees or places; nought where every
    /// stage is proven.
    pub gap: f64,
}

/// How logs are assigned.
pub const ALLOCATION: Formula = Formula {
    name: "How logs are assigned",
    math: r#"<math display="block"><mrow><mi>max</mi><mo>∑</mo><msub><mi>y</mi><mrow><mi>w</mi><mi>s</mi></mrow></msub><mspace width="2em"/><msub><mo>∑</mo><mrow><mi>s</mi></mrow></msub><msub><mi>y</mi><mrow><mi>w</mi><mi>s</mi></mrow></msub><mo>≤</mo><msub><mi>l</mi><mrow><mi>w</mi></mrow></msub><mo>+</mo><mo>∑</mo><msub><mi>n</mi><mrow><mi>t</mi></mrow></msub><msub><mi>x</mi><mrow><mi>t</mi></mrow></msub><mspace width="2em"/><mo>∑</mo><msub><mi>g</mi><mrow><mi>t</mi></mrow></msub><msub><mi>x</mi><mrow><mi>t</mi></mrow></msub><mo>≤</mo><mi>R</mi></mrow></math>"#,
    words: "First the most logs placed; of such answers the one that uses most logs from lots; then the highest sum of ratings; then fewest trees, a clump counting as one; then the earliest tags; with these trees the earlier wishes are served first. Each stage keeps what the earlier ones reached.",
    symbols: &[
        ("y", "logs of wood w for strain s, whole"),
        ("x", "1 where tree t comes down, else 0"),
        ("l, n", "logs from lots, logs that a tree gives"),
        ("g, R", "basal area of a tree, and what may come out of its stand"),
    ],
    sources: &[],
    own: "integer programming, as in any textbook; solved exactly and checked against an independent solver",
};

/// Solves a question.
///
/// # Errors
///
/// A [`Gap`] where the solver finds no answer within its nodes.
///
/// ```
/// use hostwood::reckon::allocation::{Candidate, Pair, Question, Wanted, solve};
/// let tree = |wood, logs| Candidate { wood, logs, stand: None, basal_area: 0.3 };
/// let pair = |rating, from_trees| Some(Pair { rating, from_trees });
/// let asked = |pairs: [Option<Pair>; 2]| Question {
///     woods: 2, ready: vec![2, 0], trees: vec![tree(0, 6), tree(0, 4), tree(1, 9)], allowances: vec![],
///     wishes: vec![Wanted { logs: 6, pairs: pairs.to_vec() }],
/// };
/// // Two logs lie ready; four more of the better wood are one tree, and of two that would do the earlier tag comes down.
/// let answer = solve(&asked([pair(3, true), pair(2, true)])).unwrap();
/// assert_eq!(answer.felled, [true, false, false]);
/// // Where the better wood has no day for its trees, the two logs are used, and the other wood comes down for the rest.
/// let answer = solve(&asked([pair(3, false), pair(2, true)])).unwrap();
/// assert_eq!((answer.felled, answer.placed), (vec![false, false, true], vec![vec![2, 4]]));
/// ```
pub fn solve(question: &Question) -> Result<Answer, Gap> {
    let mut model = Model { question, kept: Vec::new() };
    let mut gap: f64 = 0.0;
    let mut last = Some(question.greedy());
    for stage in Stage::ALL {
        // The trees of the last answer, with their logs placed anew for this stage, are a good answer to begin from.
        let again = last.as_ref().and_then(|last| model.stage(stage, Some(&last.felled), None));
        let begin = again.map(|(answer, _)| answer).or(last);
        let whole = if stage == Stage::Wishes { None } else { model.stage(stage, None, begin.as_ref()) };
        let (answer, left) = match (whole, begin) {
            (Some(found), _) => found,
            (None, Some(begin)) if stage == Stage::Wishes => (begin, 0.0),
            (None, Some(begin)) => (begin, f64::INFINITY),
            (None, None) => return Err(Gap::Outside("no answer was found within the number of steps allowed")),
        };
        if gap == 0.0 {
            gap = left;
        }
        model.kept.push((stage, stage.reached(question, &answer)));
        last = Some(answer);
    }
    let answer = last.ok_or(Gap::Outside("nothing is asked"))?;
    let reached = |stage: Stage| stage.reached(question, &answer) as u32;
    let value = Value {
        placed: reached(Stage::Placed),
        from_lots: reached(Stage::FromLots),
        ratings: reached(Stage::Ratings),
        trees: reached(Stage::Trees),
    };
    let Draft { felled, placed, .. } = answer;
    Ok(Answer { felled, placed, value, gap })
}

impl Question {
    /// An answer to begin from: trees that give many logs for their basal area, as long as the limits of their stands hold.
    fn greedy(&self) -> Draft {
        let wanted = |tree: &Candidate| tree.logs > 0 && self.wishes.iter().any(|wish| wish.may_fell(tree.wood));
        let mut order: Vec<usize> = (0..self.trees.len()).filter(|place| wanted(&self.trees[*place])).collect();
        let worth = |place: &usize| f64::from(self.trees[*place].logs) / self.trees[*place].basal_area.max(1e-9);
        order.sort_by(|a, b| worth(b).total_cmp(&worth(a)).then(a.cmp(b)));
        let mut left = self.allowances.clone();
        let mut felled = vec![false; self.trees.len()];
        for place in order {
            let tree = &self.trees[place];
            match tree.stand.map(|stand| &mut left[stand]) {
                Some(Some(allowance)) if *allowance < tree.basal_area => {}
                Some(Some(allowance)) => {
                    *allowance -= tree.basal_area;
                    felled[place] = true;
                }
                _ => felled[place] = true,
            }
        }
        Draft { felled, placed: vec![vec![0; self.woods]; self.wishes.len()], from_lots: vec![0; self.woods] }
    }

    /// Whether an answer in whole numbers keeps to every constraint.
    fn allows(&self, draft: &Draft) -> bool {
        let felled = |candidate: &(&Candidate, &bool)| *candidate.1;
        let (mut cut, mut out) = (vec![0; self.woods], vec![0.0; self.allowances.len()]);
        for (tree, _) in self.trees.iter().zip(&draft.felled).filter(felled) {
            cut[tree.wood] += tree.logs;
            if let Some(stand) = tree.stand {
                out[stand] += tree.basal_area;
            }
        }
        let wood = |wood: usize| {
            let placed: u32 = draft.placed.iter().map(|woods| woods[wood]).sum();
            let lots = draft.from_lots[wood];
            let of_lots_alone = self.wishes.iter().zip(&draft.placed).filter(|(wish, _)| wish.lots_alone(wood));
            let of_lots_alone: u32 = of_lots_alone.map(|(_, woods)| woods[wood]).sum();
            of_lots_alone <= lots && lots <= self.ready[wood] && lots <= placed && placed - lots <= cut[wood]
        };
        let stand = |stand: usize| self.allowances[stand].is_none_or(|allowance| out[stand] <= allowance + 1e-6);
        let wish = |(wish, woods): (&Wanted, &Vec<u32>)| {
            let allowed = woods.iter().enumerate().all(|(wood, logs)| *logs == 0 || wish.rating(wood).is_some());
            woods.iter().sum::<u32>() <= wish.logs && allowed
        };
        (0..self.woods).all(wood)
            && (0..self.allowances.len()).all(stand)
            && self.wishes.iter().zip(&draft.placed).all(wish)
    }
}

/// What a stage looks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stage {
    Placed,
    FromLots,
    Ratings,
    Trees,
    Tags,
    Wishes,
}

impl Stage {
    const ALL: [Self; 6] = [Self::Placed, Self::FromLots, Self::Ratings, Self::Trees, Self::Tags, Self::Wishes];

    const fn direction(self) -> OptimizationDirection {
        match self {
            Self::Placed | Self::FromLots | Self::Ratings => OptimizationDirection::Maximize,
            Self::Trees | Self::Tags | Self::Wishes => OptimizationDirection::Minimize,
        }
    }

    /// What one log of a wood placed with a wish is worth, by the place of the wish.
    fn log(self, rating: u8, wish: usize) -> f64 {
        match self {
            Self::Placed => 1.0,
            Self::Ratings => f64::from(rating),
            Self::Wishes => wish as f64,
            Self::FromLots | Self::Trees | Self::Tags => 0.0,
        }
    }

    /// What a tree is worth by its place in the order of tags.
    fn tree(self, place: usize) -> f64 {
        match self {
            Self::Trees => 1.0,
            Self::Tags => place as f64 + 1.0,
            Self::Placed | Self::FromLots | Self::Ratings | Self::Wishes => 0.0,
        }
    }

    /// What a placed log from a lot is worth.
    fn ready(self) -> f64 {
        f64::from(self == Self::FromLots)
    }

    /// What an answer reaches in this stage, in whole numbers.
    fn reached(self, question: &Question, draft: &Draft) -> u64 {
        let wishes = question.wishes.iter().zip(&draft.placed).enumerate();
        let placed = wishes.flat_map(|(place, (wish, woods))| {
            let worth = move |wood| self.log(wish.rating(wood).unwrap_or(0), place);
            woods.iter().enumerate().map(move |(wood, logs)| f64::from(*logs) * worth(wood))
        });
        let ready = draft.from_lots.iter().map(|logs| f64::from(*logs) * self.ready());
        let trees = draft.felled.iter().enumerate().map(|(place, felled)| f64::from(*felled) * self.tree(place));
        let sum: f64 = placed.chain(ready).chain(trees).sum();
        sum as u64
    }
}

/// An answer in whole numbers.
struct Draft {
    felled: Vec<bool>,
    placed: Vec<Vec<u32>>,
    from_lots: Vec<u32>,
}

/// The integer program, with what earlier stages reached.
struct Model<'a> {
    question: &'a Question,
    kept: Vec<(Stage, u64)>,
}

/// The variables of one program.
struct Variables {
    placed: Vec<Vec<Option<Variable>>>,
    ready: Vec<Variable>,
    trees: Vec<Variable>,
}

impl Variables {
    /// The value of every variable in an answer.
    fn at(&self, draft: &Draft) -> Vec<(Variable, f64)> {
        let placed = self.placed.iter().flatten().zip(draft.placed.iter().flatten());
        let placed = placed.filter_map(|(variable, logs)| Some(((*variable)?, f64::from(*logs))));
        let ready = self.ready.iter().zip(&draft.from_lots).map(|(variable, logs)| (*variable, f64::from(*logs)));
        let trees = self.trees.iter().zip(&draft.felled).map(|(variable, falls)| (*variable, f64::from(*falls)));
        placed.chain(ready).chain(trees).collect()
    }
}

impl Model<'_> {
    /// Solves one stage, for given trees or for any: its answer, and by how much it could be better; `None` where no answer is
    /// found.
    fn stage(&self, stage: Stage, felled: Option<&[bool]>, begin: Option<&Draft>) -> Option<(Draft, f64)> {
        let mut problem = Problem::new(stage.direction());
        let variables = self.variables(&mut problem, felled);
        self.constrain(&mut problem, &variables);
        // A whole score of its own lets the search drop every branch that is better by less than one.
        let score = problem.add_integer_var(1.0, (0, i32::MAX));
        let mut sum = self.sum(&variables, stage);
        sum.add(score, -1.0);
        problem.add_constraint(sum, ComparisonOp::Eq, 0.0);
        let mut options = SolveOptions::default();
        options.node_limit = Some(NODES.min(TREES / self.question.trees.len().max(1) as u64));
        options.warm_start = begin.map(|begin| variables.at(begin));
        let solution = problem.solve_with(options).ok()?.into_solution().ok()?;
        let whole = |variable: Variable| solution.var_value(variable).round().max(0.0) as u32;
        let draft = Draft {
            felled: variables.trees.iter().map(|variable| whole(*variable) == 1).collect(),
            placed: variables
                .placed
                .iter()
                .map(|woods| woods.iter().map(|variable| variable.map_or(0, whole)).collect())
                .collect(),
            from_lots: variables.ready.iter().map(|variable| whole(*variable)).collect(),
        };
        let bound = solution.stats().best_bound.unwrap_or(f64::INFINITY);
        let left = ((bound - solution.objective()).abs() + 1e-6).floor();
        let proven = solution.status() == SolutionStatus::Optimal;
        self.question.allows(&draft).then_some((draft, if proven { 0.0 } else { left }))
    }

    /// Only trees are held to whole numbers: with them given, logs flow through a network, whose corners are whole.
    fn variables(&self, problem: &mut Problem, felled: Option<&[bool]>) -> Variables {
        let Question { wishes, ready, trees, woods, .. } = self.question;
        let mut logs = |most: u32| problem.add_var(0.0, (0.0, f64::from(most)));
        let mut of_wish = |wish: &Wanted| -> Vec<Option<Variable>> {
            (0..*woods).map(|wood| wish.rating(wood).map(|_| logs(wish.logs))).collect()
        };
        let placed = wishes.iter().map(&mut of_wish).collect();
        let ready = ready.iter().map(|most| logs(*most)).collect();
        let mut tree = |place: usize| match felled.map(|felled| i32::from(felled[place])) {
            Some(falls) => problem.add_integer_var(0.0, (falls, falls)),
            None => problem.add_binary_var(0.0),
        };
        Variables { placed, ready, trees: (0..trees.len()).map(&mut tree).collect() }
    }

    /// What a stage counts.
    fn sum(&self, variables: &Variables, stage: Stage) -> LinearExpr {
        let mut sum = LinearExpr::empty();
        for (place, (wish, of_wish)) in self.question.wishes.iter().zip(&variables.placed).enumerate() {
            for (wood, variable) in of_wish.iter().enumerate() {
                if let Some(variable) = variable {
                    sum.add(*variable, stage.log(wish.rating(wood).unwrap_or(0), place));
                }
            }
        }
        variables.ready.iter().for_each(|variable| sum.add(*variable, stage.ready()));
        variables.trees.iter().enumerate().for_each(|(place, variable)| sum.add(*variable, stage.tree(place)));
        sum
    }

    fn constrain(&self, problem: &mut Problem, variables: &Variables) {
        let Question { wishes, trees, woods, allowances, .. } = self.question;
        for (wish, of_wish) in wishes.iter().zip(&variables.placed) {
            let mut sum = LinearExpr::empty();
            of_wish.iter().flatten().for_each(|variable| sum.add(*variable, 1.0));
            problem.add_constraint(sum, ComparisonOp::Le, f64::from(wish.logs));
        }
        for wood in 0..*woods {
            let placed = || variables.placed.iter().filter_map(move |of_wish| of_wish[wood]);
            // Logs of a wood that are placed are from lots or from felled trees, and no lot log counts unless it is placed.
            let mut from_trees = LinearExpr::empty();
            placed().for_each(|variable| from_trees.add(variable, 1.0));
            from_trees.add(variables.ready[wood], -1.0);
            let from_lots = from_trees.clone();
            for (tree, variable) in trees.iter().zip(&variables.trees).filter(|(tree, _)| tree.wood == wood) {
                from_trees.add(*variable, -f64::from(tree.logs));
            }
            problem.add_constraint(from_trees, ComparisonOp::Le, 0.0);
            problem.add_constraint(from_lots, ComparisonOp::Ge, 0.0);
            let of_wishes = wishes.iter().zip(&variables.placed).filter(|(wish, _)| wish.lots_alone(wood));
            let mut of_lots_alone = LinearExpr::empty();
            of_wishes.filter_map(|(_, woods)| woods[wood]).for_each(|variable| of_lots_alone.add(variable, 1.0));
            of_lots_alone.add(variables.ready[wood], -1.0);
            problem.add_constraint(of_lots_alone, ComparisonOp::Le, 0.0);
        }
        for (stand, allowance) in allowances.iter().enumerate() {
            let Some(allowance) = allowance else { continue };
            let mut out = LinearExpr::empty();
            for (tree, variable) in trees.iter().zip(&variables.trees).filter(|(tree, _)| tree.stand == Some(stand)) {
                out.add(*variable, tree.basal_area);
            }
            problem.add_constraint(out, ComparisonOp::Le, *allowance);
        }
        for (stage, reached) in &self.kept {
            let side = match stage.direction() {
                OptimizationDirection::Maximize => ComparisonOp::Ge,
                OptimizationDirection::Minimize => ComparisonOp::Le,
            };
            problem.add_constraint(self.sum(variables, *stage), side, *reached as f64);
        }
    }
}
