//! Makes a key of the best question of each set, and numbers its couplets.

use std::collections::HashMap;

use super::{Couplet, Goal, Key, Lead, Matrix, Set, Split, States, members, set_of};

/// Couplets that a key has at most; what is left then ends together.
const COUPLETS: usize = 1000;

/// Makes a key of the best question of each set.
pub(super) struct Grower<'a, B> {
    matrix: &'a Matrix,
    best: B,
    couplets: Vec<Couplet>,
    grown: HashMap<(Set, Vec<States>), usize>,
}

impl<'a, B: FnMut(Set) -> Option<Split>> Grower<'a, B> {
    /// A key that asks the best question of each set.
    pub(super) fn of(matrix: &'a Matrix, best: B) -> Self {
        Self { matrix, best, couplets: Vec::new(), grown: HashMap::new() }
    }

    /// The key.
    pub(super) fn key(mut self) -> Key {
        let all = set_of(&(0..self.matrix.weights.len()).collect::<Vec<_>>());
        let start = self.grow(all, &vec![0; self.matrix.questions.len()]);
        self.numbered(&start)
    }

    /// The key with its couplets numbered so that every lead goes on to a later one.
    fn numbered(&self, start: &Goal) -> Key {
        let mut order = Vec::new();
        self.follow(start, &mut order);
        order.reverse();
        let mut numbers = vec![0; self.couplets.len()];
        order.iter().enumerate().for_each(|(number, at)| numbers[*at] = number);
        let goal = |goal: &Goal| match goal {
            Goal::Couplet(at) => Goal::Couplet(numbers[*at]),
            Goal::End(taxa) => Goal::End(taxa.clone()),
        };
        let mut couplets: Vec<Couplet> = order.iter().map(|at| self.couplets[*at].clone()).collect();
        for number in 0..couplets.len() {
            for lead in 0..2 {
                let next = goal(&couplets[number].leads[lead].goal);
                if let Goal::Couplet(next) = next {
                    couplets[next].from.push(number);
                }
                couplets[number].leads[lead].goal = next;
            }
        }
        Key { couplets, start: goal(start) }
    }

    /// Writes down the couplets after a goal, the last ones first.
    fn follow(&self, goal: &Goal, order: &mut Vec<usize>) {
        let Goal::Couplet(at) = goal else { return };
        if order.contains(at) {
            return;
        }
        self.couplets[*at].leads.iter().rev().for_each(|lead| self.follow(&lead.goal, order));
        order.push(*at);
    }

    /// Where a set is told apart, once earlier leads have shut some states of each question; what is alike shares a couplet.
    fn grow(&mut self, woods: Set, shut: &[States]) -> Goal {
        let split = if self.couplets.len() < COUPLETS { (self.best)(woods) } else { None };
        let Some(split) = split else { return Goal::End(members(woods)) };
        let question = &self.matrix.questions[split.question];
        let leads = split.leads.map(|states| states & !shut[split.question]);
        let kept = leads.map(|states| woods & question.kept(states));
        let after = |side: usize| {
            let mut after = shut.to_vec();
            after[split.question] |= leads[1 - side];
            self.matrix.shut_of(kept[side], &after)
        };
        let after = [after(0), after(1)];
        if let Some(side) = (0..2).find(|side| leads[1 - side] == 0) {
            return self.grow(kept[side], &after[side]);
        }
        let place = (woods, shut.to_vec());
        if let Some(at) = self.grown.get(&place) {
            return Goal::Couplet(*at);
        }
        let at = self.couplets.len();
        self.grown.insert(place, at);
        let mut sides = [0, 1];
        sides.sort_by_key(|side| kept[*side].count_ones());
        let lead = |side: usize| Lead {
            states: members(leads[side].into()),
            taxa: members(kept[side]),
            goal: Goal::End(Vec::new()),
        };
        self.couplets.push(Couplet {
            question: split.question,
            from: Vec::new(),
            taxa: members(woods),
            leads: sides.map(lead),
        });
        for (lead, side) in sides.into_iter().enumerate() {
            let goal = self.grow(kept[side], &after[side]);
            self.couplets[at].leads[lead].goal = goal;
        }
        Goal::Couplet(at)
    }
}
