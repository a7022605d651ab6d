#!/usr/bin/env python3
"""Holds the keys of random farms to scikit-learn's trees by entropy, which look no further than the next question.

Usage: tree_key.py HOSTWOOD_BINARY [COUNT] [SEED]

COUNT is 60 and SEED is 1 where they are left out. A farm that fails is left where the message says, to be looked at.

Every wood of a farm is its own and shows one of two states of each character, and all characters of a farm take the same
effort, so that a key and a tree of yes and no can ask the same questions. A tree is then never shorter than the key on the
weighted average of the woods, and both tell the same woods apart.
"""

import csv
import json
import random
import subprocess
from collections import defaultdict
from shutil import rmtree

import numpy as np
from sklearn.tree import DecisionTreeClassifier

from farms import Trial, asked, try_all, write

# Characters that take the same effort in a season, with two states of each.
CHARACTERS = {
    "winter": {
        "needles": ("two", "five"),
        "arrangement": ("alternate", "opposite"),
        "end_bud": ("single", "cluster"),
        "bud_scales": ("two", "many"),
        "bud_shape": ("stalked", "cigar"),
        "bud_colour": ("red", "black"),
        "bud_surface": ("smooth", "hairy"),
        "twig_smell": ("none", "almond"),
        "pith": ("solid", "chambered"),
        "leaf_scar": ("small", "circle"),
        "stipule_scar": ("ring", "short"),
    },
    "summer": {
        "leaf_type": ("simple", "pinnate"),
        "leaf_margin": ("entire", "fine-serrate"),
        "leaf_base": ("even", "heart"),
        "leaf_underside": ("plain", "rusty"),
        "leaflets": ("five", "nine"),
        "thorns": ("none", "paired"),
        "bark": ("net", "shaggy"),
    },
}
# Kinds that are to be refused everywhere, and would stand in every key.
REFUSED = ("any-conifer", "yew")
# Trees for each farm, which differ where questions promise the same.
TREES = 5
EQUAL = 1e-9


class Farm:
    """A random farm: what each of its woods shows, and how many trees of it are tagged."""

    def __init__(self, seed):
        self.random = random.Random(seed)
        self.season = self.random.choice(sorted(CHARACTERS))
        self.woods = [f"wood-{number}" for number in range(1, self.random.randint(5, 16) + 1)]
        seen = CHARACTERS[self.season]
        self.characters = self.random.sample(sorted(seen), self.random.randint(5, len(seen)))
        self.rows = self.any_rows()
        self.tagged = [self.random.choice([0, self.random.randint(0, 5), self.random.randint(0, 40)]) for _ in self.woods]
        self.weights = np.array(self.tagged) + 1

    def any_rows(self):
        """The place of each wood's state of each character; some woods may be alike, but never all."""
        rows = np.zeros((1, 0), dtype=int)
        while len(np.unique(rows, axis=0)) < 2:
            parts = [self.random.uniform(0.2, 0.8) for _ in self.characters]
            rows = np.array([[int(self.random.random() < part) for part in parts] for _ in self.woods])
        return rows

    def states(self, wood):
        """What a wood shows, as records write it."""
        row = self.rows[self.woods.index(wood)]
        return {name: CHARACTERS[self.season][name][state] for name, state in zip(self.characters, row)}

    def alike(self):
        """Each wood with those that no character tells from it."""
        groups = defaultdict(set)
        for wood, row in zip(self.woods, self.rows):
            groups[tuple(row)].add(wood)
        return {wood: groups[tuple(row)] for wood, row in zip(self.woods, self.rows)}

    def mean(self, depths):
        return float(np.average([depths[wood] for wood in self.woods], weights=self.weights))

    def write(self, folder):
        # A place without a country, where no kind is refused but those that are refused everywhere.
        farm = {"name": "A random farm", "place": {"latitude": 43.0, "longitude": -72.0}, "season": 2026}
        write(folder / "farm.yaml", farm | {"woods": self.woods})
        for number, wood in enumerate(self.woods, 1):
            names = {"names": [f"wood {number}"], "scientific": f"Lignum number{number}", "leaf": "broad"}
            said = {"source": "this-handbook", "mark": "ours"}
            characters = {name: {"is": [state]} | said for name, state in self.states(wood).items()}
            write(folder / "woods" / f"{wood}.yaml", names | {"characters": characters})
        for wood in REFUSED:
            write(folder / "woods" / f"{wood}.yaml", {"refuse": None})
        (folder / "woodlot").mkdir()
        with open(folder / "woodlot" / "trees.csv", "w", encoding="utf-8", newline="") as sheet:
            rows = csv.writer(sheet)
            rows.writerow(["Tag", "Wood", "DBH (in)", "Decision"])
            stems = [wood for wood, count in zip(self.woods, self.tagged) for _ in range(count)]
            rows.writerows([tag, wood, 6, self.random.choice(["fell", "keep"])] for tag, wood in enumerate(stems, 1))


class Key:
    """The program's key of a season, read from its table alone."""

    def __init__(self, rows, season):
        self.characters = {}
        self.leads = defaultdict(dict)
        for row in rows:
            if row["season"] == season:
                self.characters[row["couplet"]] = row["character"].replace("-", "_")
                self.leads[row["couplet"]][row["state"]] = row["goto"], set((row["wood"] or "").split())

    def woods(self):
        return {wood for leads in self.leads.values() for _, end in leads.values() for wood in end}

    def walk(self, states):
        """How many couplets a wood with these states is asked, and the woods at its end."""
        at, asked = 1, 0
        while at is not None:
            asked += 1
            on, end = self.leads[at][states[self.characters[at]]]
            if on is not None and on <= at:
                raise ValueError(f"couplet {at} leads back to {on}")
            at = on
        return asked, end


class Entropy:
    """A tree by scikit-learn on the same woods with the same weights."""

    def __init__(self, farm, choice):
        tree = DecisionTreeClassifier(criterion="entropy", random_state=choice)
        tree.fit(farm.rows, farm.woods, sample_weight=farm.weights)
        leaves = dict(zip(farm.woods, tree.apply(farm.rows)))
        self.ends = {wood: {other for other in farm.woods if leaves[other] == leaf} for wood, leaf in leaves.items()}
        # A path counts its leaf, which asks nothing.
        lengths = tree.decision_path(farm.rows).sum(axis=1)
        self.depths = {wood: int(length) - 1 for wood, length in zip(farm.woods, np.asarray(lengths).ravel())}


class Keyed(Trial):
    """One farm: the program's key, held to the records and to the other trees."""

    def __init__(self, farm, rows):
        super().__init__()
        self.farm = farm
        self.key = Key(rows, farm.season)
        self.shorter = 0

    def run(self):
        woods, alike = self.key.woods(), self.farm.alike()
        self.check(woods == set(self.farm.woods), f"the key ends at {sorted(woods)}")
        walks = {wood: self.key.walk(self.farm.states(wood)) for wood in self.farm.woods}
        for wood, (_, end) in walks.items():
            self.check(end == alike[wood], f"{wood} ends at {sorted(end)} in the key, and is like {sorted(alike[wood])}")
        self.compared(self.farm.mean({wood: asked for wood, (asked, _) in walks.items()}), alike)

    def compared(self, ours, alike):
        """The key is never longer than a tree; where it is shorter than every one, that is counted."""
        trees = [Entropy(self.farm, choice) for choice in range(TREES)]
        means = [self.farm.mean(tree.depths) for tree in trees]
        for tree, theirs in zip(trees, means):
            self.check(tree.ends == alike, "the tree by entropy tells other woods apart than the records do")
            self.check(theirs >= ours - EQUAL, f"the key asks {ours:.6f} couplets, and a tree by entropy {theirs:.6f}")
        self.shorter = int(min(means) > ours + EQUAL)


def one(task):
    """Tries one farm: how many checks passed, the messages of those that failed, and whether its key was shorter."""
    seed, folder, binary = task
    farm = Farm(seed)
    farm.write(folder)
    words = [binary, "reckon", "tree-key", str(folder), "--as", "json"]
    done = subprocess.run(words, capture_output=True, encoding="utf-8")
    if done.returncode:
        return 0, [f"{folder}: `reckon tree-key` ended with {done.returncode}: {done.stderr}"]
    try:
        trial = Keyed(farm, json.loads(done.stdout))
        trial.run()
    except (KeyError, ValueError) as fault:
        return 0, [f"{folder}: {type(fault).__name__}: {fault}"]
    if not trial.faults:
        rmtree(folder)
    return trial.passed, [f"{folder}: {fault}" for fault in trial.faults], trial.shorter


def main():
    binary, seeds = asked(60)
    try_all(one, seeds, binary, "keys were shorter than every tree by entropy")


if __name__ == "__main__":
    main()
