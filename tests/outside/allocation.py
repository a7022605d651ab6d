#!/usr/bin/env python3
"""Solves the winter of random farms with a solver that is not the program's own, and holds the program's answer to it.

Usage: allocation.py HOSTWOOD_BINARY [COUNT] [SEED]

COUNT is 200 and SEED is 1 where they are left out. A farm that fails is left where the message says, to be looked at.
"""

import csv
import datetime
import json
import math
import random
import subprocess
import tempfile
from collections import Counter, defaultdict
from pathlib import Path
from shutil import rmtree

import numpy as np
import yaml
from scipy.optimize import Bounds, LinearConstraint, milp

from farms import Trial, asked, try_all, write

CONTENT = Path(__file__).resolve().parents[2] / "content"
SEASON = 2026
# Common practice, where a farm has not chosen: days of rest from felling to inoculation.
REST = range(14, 29)
SPAWN = ("sawdust", "plug", "thimble")
# The solver's presolve has called answers the best that were not, so it is left out.
OPTIONS = {"mip_rel_gap": 0, "presolve": False}
WORDS = ("fails", "gets by", "does well", "thrives")
STAGES = ("logs placed", "logs from lots", "sum of ratings", "trees", "order of their tags", "order of the wishes")
FLOORS = {
    "thrives": lambda rating, word: rating == 3,
    "does-well": lambda rating, word: rating is not None and rating >= 2,
    "gets-by": lambda rating, word: rating is not None and rating >= 1,
    "mentioned": lambda rating, word: word not in ("fails", "untried"),
    "untried": lambda rating, word: word != "fails",
}
GOOD_ENOUGH = {
    "thrives": "thrive with it",
    "does-well": "do well with it",
    "gets-by": "get by with it",
    "mentioned": "are mentioned with it",
    "untried": "do not fail with it",
}
COLUMNS = {
    "tag": "Tag",
    "stand": "Stand",
    "wood": "Wood",
    "dbh": "DBH (in)",
    "height": "Height (ft)",
    "logs": "Logs",
    "limb_logs": "Limb logs",
    "fork": "Fork (ft)",
    "condition": "Condition",
    "decision": "Decision",
    "clump": "Clump",
}


def square_feet(inches):
    return math.pi / 576 * inches**2


class Handbook:
    """What random farms choose from."""

    def __init__(self, binary):
        self.binary = binary
        self.woods = self.ids("woods")
        self.mushrooms = self.ids("mushrooms")
        self.strains = {name: self.record("strains", name)["mushroom"] for name in self.ids("strains")}
        self.names = {name: self.record("woods", name)["names"][0] for name in self.woods}
        with tempfile.TemporaryDirectory() as folder:
            write(Path(folder) / "farm.yaml", farm_record())
            self.pairs = self.pairings(folder)

    @staticmethod
    def ids(kind):
        return sorted(path.stem for path in (CONTENT / kind).glob("*.yaml"))

    @staticmethod
    def record(kind, name):
        return yaml.safe_load((CONTENT / kind / f"{name}.yaml").read_text(encoding="utf-8"))

    @staticmethod
    def line(kind, name):
        """A wood or a mushroom and the groups to which it belongs."""
        line = set()
        while name:
            line.add(name)
            name = Handbook.record(kind, name).get("part_of")
        return line

    def table(self, name, folder):
        words = [self.binary, "reckon", name, str(folder), "--as", "json", "--units", "us"]
        done = subprocess.run(words, capture_output=True, encoding="utf-8")
        if done.returncode:
            raise ValueError(f"`reckon {name}` ended with {done.returncode}: {done.stderr}")
        return json.loads(done.stdout)

    def pairings(self, folder):
        """Rating and word, on logs, of each pair that anyone has spoken of."""
        methods = {row["mushroom"]: (row["methods"] or "").split() for row in self.table("mushrooms", folder)}

        def on_logs(row):
            grown = [method for method in methods[row["mushroom"]] if method in ("rack-log", "buried-log")]
            ways = ("buried_log", "log", "totem") if grown[:1] == ["buried-log"] else ("log", "totem", "buried_log")
            rating = next((row[way] for way in ways if row[way] is not None), None)
            word = "untried" if row["word"] == "untried" else "mentioned"
            return rating, word if rating is None else WORDS[rating]

        return {(row["mushroom"], row["wood"]): on_logs(row) for row in self.table("pairings", folder)}


def farm_record(log=None):
    record = {"name": "A random farm", "place": {"latitude": 43.0, "longitude": -72.0}, "season": SEASON}
    return record | ({"log": log} if log else {})


class Farm:
    """The records of a random farm, and what the question needs of them."""

    def __init__(self, seed, handbook):
        self.random = random.Random(seed)
        self.handbook = handbook
        self.log = self.any_log()
        self.own_strains = {}
        self.strains = dict(self.any_strain(number) for number in range(self.between(2, 6)))
        self.woods = self.any_woods()
        self.evidence = self.any_evidence() if self.chance(0.25) else []
        self.stands = {f"stand-{number}": self.any_stand(number) for number in range(1, self.between(1, 3) + 1)}
        self.trees = self.any_trees()
        self.lots, self.batches = self.any_lots()
        self.down = self.batches.get("batch-of-trees", {}).get("trees", [])
        self.wishes = []
        self.plans = self.any_plans()
        self.seasons = self.any_seasons() if self.chance(0.5) else {}

    def any_seasons(self):
        """Windows between dates, of which some leave a wood or a mushroom without a day."""
        grown = sorted(set(self.strains.values()))
        seasons = {
            "our-felling": self.any_season("cut", "woods", self.woods),
            "our-filling": self.any_season("inoculate", "mushrooms", grown),
        }
        if self.chance(0.4):
            seasons["our-rest"] = self.any_season("no-cut", "woods", self.woods)
        return seasons

    def any_season(self, kind, of, among):
        first = datetime.date(2025, 1, 1) + datetime.timedelta(days=self.between(0, 364))
        last = first + datetime.timedelta(days=self.between(0, 160))
        said = {"name": f"Our season to {kind}", "kind": kind, "says": "by our dates", "source": "common-practice"}
        only = {of: self.random.sample(among, self.between(1, len(among)))} if self.chance(0.5) else {}
        return said | {"from": f"{first:%m-%d}", "to": f"{last:%m-%d}"} | only

    def days(self, kind, of, record):
        """The days of the windows of a kind that speak of a wood or a mushroom; none where no window does."""
        line = self.handbook.line(of, record)
        windows = [season for season in self.seasons.values() if season["kind"] == kind]
        speaking = [season for season in windows if line & set(season.get(of, line))]
        return set().union(*(stretch(season["from"], season["to"]) for season in speaking)) if speaking else None

    def has_day(self, mushroom, wood):
        """Whether a tree can come down and be inoculated, as far as it is known; the handbook's windows need dates or air."""
        cut = self.days("cut", "woods", wood)
        if cut is None:
            return True
        felled = cut - (self.days("no-cut", "woods", wood) or set())
        filled = self.days("inoculate", "mushrooms", mushroom)
        if filled is None:
            return bool(felled)
        return any((day + rest) % 365 in filled for day in felled for rest in REST)

    def chance(self, part):
        return self.random.random() < part

    def between(self, low, high):
        return self.random.randint(low, high)

    def decimal(self, low, high, digits=1):
        return round(self.random.uniform(low, high), digits)

    def any_log(self):
        thin, thick, length = self.random.choice([(4, 6, 40), (3, 8, 40), (3.5, 6, 36), (4, 7, 48)])
        return {"diameter": [f"{thin} in", f"{thick} in"], "length": f"{length} in"}

    def any_strain(self, number):
        """A strain and its mushroom, one of the handbook's or the farm's own."""
        if self.chance(0.3):
            return self.random.choice(sorted(self.handbook.strains.items()))
        rated = sorted({mushroom for (mushroom, _), (rating, _) in self.handbook.pairs.items() if rating})
        mushroom = self.random.choice(rated if self.chance(0.8) else self.handbook.mushrooms)
        name = f"line-{number}"
        self.own_strains[name] = {"name": f"Line {number}", "mushroom": mushroom}
        return name, mushroom

    def any_woods(self):
        """Woods of which most are rated for a mushroom of the farm, so that the answer has something to choose."""
        grown = set(self.strains.values())
        pairs = self.handbook.pairs.items()
        rated = sorted({wood for (mushroom, wood), (rating, _) in pairs if rating and mushroom in grown})
        woods = []
        for _ in range(self.between(3, 7)):
            among = rated if rated and self.chance(0.75) else self.handbook.woods
            woods.append(self.random.choice([wood for wood in among if wood not in woods] or self.handbook.woods))
        return sorted(set(woods))

    def any_evidence(self):
        pairs = sorted((mushroom, wood) for mushroom in set(self.strains.values()) for wood in self.woods)
        chosen = self.random.sample(pairs, self.between(1, len(pairs)))
        said = {"says": "seen on this farm", "grown": "log", "kind": "own-logs", "source": "own-notes"}
        return [{"mushroom": mushroom, "wood": wood, "rating": self.between(0, 3)} | said for mushroom, wood in chosen]

    def any_stand(self, number):
        stand = {"name": f"Stand {number}"}
        if self.chance(0.3):
            stand["height"] = f"{self.between(30, 70)} ft"
        if self.chance(0.85):
            stand["area"] = f"{self.decimal(0.05, 0.9, 2)} acres"
        if self.chance(0.8):
            factor = self.random.choice([5, 10, 20])
            counts = [self.between(40, 160) // factor for _ in range(self.between(1, 6))]
            stand["prism"] = {"factor": f"{factor} ft2/ac", "counts": counts}
            if self.chance(0.75):
                stand["target"] = f"{self.decimal(0.55, 1.1) * factor * sum(counts) / len(counts):.1f} ft2/ac"
        return stand

    def any_trees(self):
        wanted = self.between(10, 60)
        tags = self.random.sample([f"{head}{number}" for head in ("", "A-", "b") for number in range(1, 41)], wanted)
        trees, clumps = [], Counter()
        while len(trees) < wanted:
            shared = {
                "stand": None if self.chance(0.07) else self.random.choice(sorted(self.stands)),
                "wood": self.random.choice(self.woods),
                "decision": "fell" if self.chance(0.7) else "keep",
            }
            stems = min(self.between(2, 4), wanted - len(trees)) if self.chance(0.1) else 1
            if stems > 1:
                # Clumps of different stands carry the same names, because a name holds within its stand.
                clumps[shared["stand"]] += 1
                shared["clump"] = f"c{clumps[shared['stand']]}"
            trees += [{"tag": tags[len(trees) + stem]} | shared | self.any_stem() for stem in range(stems)]
        self.random.shuffle(trees)
        return trees

    def any_stem(self):
        stem = {"dbh": self.decimal(4.0, 10.0) if self.chance(0.85) else self.decimal(2.5, 22.0)}
        seen = self.random.choice(["height", "height", "logs", "both", "neither"])
        if seen in ("height", "both"):
            stem["height"] = self.between(15, 75)
        if seen in ("logs", "both"):
            stem["logs"] = self.between(0, 14)
        if self.chance(0.15):
            stem["limb_logs"] = self.between(0, 9)
        if self.chance(0.1):
            stem["fork"] = self.between(6, 40)
        if self.chance(0.3):
            stem["condition"] = self.random.choice(["forked", "crooked", "damaged", "decayed", "dead"])
        return stem

    def any_lots(self):
        lots, batches = {}, {}
        for number in range(self.random.choice([0, 0, 1, 2, 3])):
            logs = self.between(1, 40)
            wood = self.random.choice(self.woods if self.chance(0.8) else self.handbook.woods)
            lots[f"lot-{number}"] = {"name": f"Lot {number}", "wood": wood, "logs": logs, "from": "a random number"}
            if self.chance(0.4):
                batches[f"batch-{number}"] = self.any_batch(self.between(1, logs)) | {"lot": f"lot-{number}"}
        if self.chance(0.2):
            batches["batch-apart"] = self.any_batch(self.between(1, 40)) | {"wood": self.random.choice(self.woods)}
        if self.chance(0.3):
            batches["batch-of-trees"] = self.any_batch(self.between(1, 40)) | {"trees": self.any_down()}
        return lots, batches

    def any_down(self):
        """Tags of marked trees of one wood that are down already, and with a stem of a clump those of the others."""
        marked = [tree for tree in self.trees if tree["decision"] == "fell"]
        wood = self.random.choice(marked)["wood"] if marked else None
        marked = [tree for tree in marked if tree["wood"] == wood]
        first = self.random.sample(marked, min(len(marked), self.between(1, 5)))
        clumps = [(tree["stand"], tree["clump"]) for tree in first if "clump" in tree]
        return [tree["tag"] for tree in marked if tree in first or (tree["stand"], tree.get("clump")) in clumps]

    def any_batch(self, logs):
        strain = self.random.choice(sorted(self.strains))
        return {"strain": strain, "logs": logs, "inoculated": f"{SEASON}-04-20", "felled": f"{SEASON}-03-10"}

    def any_plans(self):
        free = [(strain, spawn) for strain in sorted(self.strains) for spawn in SPAWN]
        self.random.shuffle(free)
        plans = {"a-winter": self.any_plan(free, self.between(1, 6))}
        if free and self.chance(0.2):
            plans["b-winter"] = self.any_plan(free, self.between(1, 2))
        if self.chance(0.2):
            past = [{"strain": strain, "spawn": "plug", "logs": 30} for strain in self.strains]
            plans["past-winter"] = {"name": "A winter that is over", "season": SEASON - 1, "wishes": past}
        return plans

    def any_plan(self, free, number):
        plan = {"name": "A winter", "season": SEASON, "wishes": []}
        if self.chance(0.6):
            plan["floor"] = self.random.choice(sorted(FLOORS))
        for _ in range(min(number, len(free))):
            strain, spawn = free.pop()
            amount, wanted = self.any_amount()
            plan["wishes"].append({"strain": strain, "spawn": spawn} | amount)
            self.wishes.append(Wish(strain, spawn, self.strains[strain], plan.get("floor", "does-well"), wanted))
        return plan

    def any_amount(self):
        amount = {}
        if self.chance(0.85):
            amount["logs"] = self.between(1, 60)
        if not amount or self.chance(0.15):
            amount["guests"] = self.between(1, 15)
            if self.chance(0.5):
                amount["logs_a_guest"] = self.between(1, 3)
        return amount, amount.get("logs", 0) + amount.get("guests", 0) * amount.get("logs_a_guest", 1)

    def write(self, folder):
        write(folder / "farm.yaml", farm_record(self.log))
        for kind in ("lots", "batches", "plans", "seasons"):
            for name, record in getattr(self, kind).items():
                write(folder / kind / f"{name}.yaml", record)
        for name, record in self.own_strains.items():
            write(folder / "strains" / f"{name}.yaml", record)
        for name, record in self.stands.items():
            write(folder / "woodlot" / f"{name}.yaml", record)
        if self.evidence:
            write(folder / "evidence" / "own.yaml", self.evidence)
            source = {"short": "Own notes", "authors": "The farm", "title": "Own notes", "kind": "this-farm"}
            write(folder / "sources.yaml", {"own-notes": source})
        with open(folder / "woodlot" / "trees.csv", "w", encoding="utf-8", newline="") as sheet:
            rows = csv.writer(sheet)
            rows.writerow(COLUMNS.values())
            rows.writerows([[tree.get(key, "") for key in COLUMNS] for tree in self.trees])

    def left(self):
        """Logs of each wood that lie ready, less what batches took of them."""
        left = Counter()
        for lot in self.lots.values():
            left[lot["wood"]] += lot["logs"]
        for batch in self.batches.values():
            if "lot" in batch:
                left[self.lots[batch["lot"]]["wood"]] -= batch["logs"]
        return left

    def basal_area(self, stand):
        """Basal area an acre by the prism, less what came out since, and nothing where either is not known."""
        record = self.stands[stand]
        prism = record.get("prism")
        if not prism:
            return None
        counted = figure(prism["factor"]) * sum(prism["counts"]) / len(prism["counts"])
        out = [square_feet(tree["dbh"]) for tree in self.trees if tree["stand"] == stand and tree["tag"] in self.down]
        if not out:
            return counted
        return max(0.0, counted - sum(out) / figure(record["area"])) if "area" in record else None

    def limit(self, stand):
        """Square feet that may come out of a stand, and nothing where that is not known."""
        record, stands_there = self.stands[stand], self.basal_area(stand)
        if stands_there is None or "area" not in record:
            return None
        above = stands_there - figure(record["target"]) if "target" in record else math.inf
        return max(0.0, min(above, stands_there / 3)) * figure(record["area"])


def stretch(first, last):
    """Days of the year from one date to another, counted from nought."""
    first, last = (datetime.date.fromisoformat(f"2025-{date}").timetuple().tm_yday - 1 for date in (first, last))
    return {(first + day) % 365 for day in range((last - first) % 365 + 1)}


def figure(quantity):
    return float(quantity.split()[0])


class Wish:
    def __init__(self, strain, spawn, mushroom, floor, wanted):
        self.strain, self.spawn, self.mushroom, self.floor, self.wanted = strain, spawn, mushroom, floor, wanted

    def __str__(self):
        return f"{self.strain} by {self.spawn}"


class Question:
    """What there is and what is wished for, from the farm's records and the program's counts of logs."""

    def __init__(self, farm, logs, pairs):
        self.farm, self.logs, self.pairs = farm, logs, pairs
        self.left = farm.left()
        self.limits = {stand: farm.limit(stand) for stand in farm.stands if farm.limit(stand) is not None}
        groups = defaultdict(list)
        # The table stands in the order of tags, and a clump in it where its first tag stands.
        order = {tag: place for place, tag in enumerate(logs)}
        for tree in sorted(farm.trees, key=lambda tree: order[tree["tag"]]):
            if tree["decision"] == "fell" and tree["tag"] not in farm.down:
                groups[(tree["stand"], tree["clump"]) if "clump" in tree else tree["tag"]].append(tree)
        self.units = list(groups.values())
        self.woods = sorted({unit[0]["wood"] for unit in self.units} | {wood for wood in self.left if self.left[wood] > 0})

    def pair(self, wish, wood):
        return self.pairs.get((wish.mushroom, wood), (None, "untried"))

    def allows(self, wish, wood):
        return FLOORS[wish.floor](*self.pair(wish, wood))

    def has_day(self, wish, wood):
        return self.farm.has_day(wish.mushroom, wood)

    def unit_logs(self, unit):
        return sum(self.logs[tree["tag"]] for tree in unit)

    def solve(self, felled):
        """The best value of each stage, which keeps what the earlier ones reached; the last one is for given trees."""
        pairs = [(wish, wood) for wish in self.farm.wishes for wood in self.woods if self.allows(wish, wood)]
        if not pairs:
            yield from (0 for _ in STAGES)
            return
        rows, tops = self.constraints(pairs)
        lots = [wish.wanted for wish, _ in pairs]
        logs = lots + [wish.wanted if self.has_day(wish, wood) else 0 for wish, wood in pairs]
        lowest, highest = [0] * len(logs + self.units), logs + [1] * len(self.units)
        for stage, aim in zip(STAGES, self.aims(pairs)):
            if stage == STAGES[-1]:
                lowest[len(logs) :] = highest[len(logs) :] = [int(unit[0] in felled) for unit in self.units]
            best = smallest(aim, rows, tops, Bounds(lowest, highest))
            rows.append(aim)
            tops.append(best)
            yield abs(best)

    def constraints(self, pairs):
        """Rows over logs from lots by pair, logs from trees by pair, and whether each unit comes down."""
        lots = {pair: place for place, pair in enumerate(pairs)}
        trees = {pair: place + len(pairs) for place, pair in enumerate(pairs)}
        units = range(2 * len(pairs), 2 * len(pairs) + len(self.units))
        rows, tops = [], []

        def add(factors, top):
            row = np.zeros(2 * len(pairs) + len(self.units))
            for place, factor in factors:
                row[place] = factor
            rows.append(row)
            tops.append(top)

        for wish in self.farm.wishes:
            add([(side[pair], 1) for pair in pairs if pair[0] is wish for side in (lots, trees)], wish.wanted)
        for wood in self.woods:
            of_wood = [pair for pair in pairs if pair[1] == wood]
            cut = [(place, -self.unit_logs(unit)) for place, unit in zip(units, self.units) if unit[0]["wood"] == wood]
            add([(lots[pair], 1) for pair in of_wood], self.left[wood])
            add([(trees[pair], 1) for pair in of_wood] + cut, 0)
        for stand, limit in self.limits.items():
            here = [(place, unit) for place, unit in zip(units, self.units) if unit[0]["stand"] == stand]
            add([(place, sum(square_feet(tree["dbh"]) for tree in unit)) for place, unit in here], limit)
        return rows, tops

    def aims(self, pairs):
        """What each stage makes as small as it can, in the order of `STAGES`."""
        ones, none, trees = np.ones(len(pairs)), np.zeros(len(pairs)), np.zeros(len(self.units))
        ratings = np.array([float(self.pair(*pair)[0] or 0) for pair in pairs])
        orders = np.array([float(self.farm.wishes.index(wish)) for wish, _ in pairs])
        return (
            np.concatenate([-ones, -ones, trees]),
            np.concatenate([-ones, none, trees]),
            np.concatenate([-ratings, -ratings, trees]),
            np.concatenate([none, none, trees + 1]),
            np.concatenate([none, none, trees + np.arange(1, len(trees) + 1)]),
            np.concatenate([orders, orders, trees]),
        )


def smallest(aim, rows, tops, bounds):
    """The smallest value of an aim over whole numbers whose rows are no more than their tops."""
    rows, tops = np.array(rows), np.array(tops)
    done = milp(aim, constraints=LinearConstraint(rows, -np.inf, tops), bounds=bounds, integrality=1, options=OPTIONS)
    if done.status != 0:
        raise ValueError(f"the solver found nothing: {done.message}")
    whole = np.round(done.x)
    if np.any(rows @ whole > tops + 1e-6):
        raise ValueError("the solver's answer in whole numbers does not keep to the limits")
    return round(aim @ whole)


class Allocated(Trial):
    """One farm: the program's tables, held to the records and to the other solver."""

    def __init__(self, farm, folder):
        super().__init__()
        self.farm = farm
        handbook = farm.handbook
        self.trees = {row["tag"]: row for row in handbook.table("trees", folder)}
        if set(self.trees) != {tree["tag"] for tree in farm.trees}:
            raise ValueError("the table of trees names other trees than those that were written")
        self.thinning = {(row["stand"], row["state"]): row for row in handbook.table("thinning", folder)}
        self.rows = handbook.table("allocation", folder)
        pairs = handbook.pairings(folder) if farm.evidence else handbook.pairs
        self.logs = {tag: row["logs"] or 0 for tag, row in self.trees.items()}
        self.question = Question(farm, self.logs, pairs)
        self.felled = [tree for tree in farm.trees if self.trees[tree["tag"]]["this_winter"]]
        self.placed = {
            wish: {row["wood"]: row for row in self.rows_of(wish) if row["wood"] is not None} for wish in farm.wishes
        }

    def rows_of(self, wish):
        return [row for row in self.rows if (row["strain"], row["spawn"]) == (wish.strain, wish.spawn)]

    def run(self):
        self.echoes()
        self.feasible()
        self.rated()
        self.best()
        self.shortages()
        self.thinned()

    def echoes(self):
        """The tables speak of the records that were written."""
        for tree in self.farm.trees:
            row = self.trees[tree["tag"]]
            said = tuple(row[key] for key in ("stand", "wood", "decision", "diameter_in"))
            wrote = tuple(tree[key] for key in ("stand", "wood", "decision", "dbh"))
            self.check(said == wrote, f"tree {tree['tag']} was written as {wrote} and is {said}")
        wishes = {(wish.strain, wish.spawn) for wish in self.farm.wishes}
        for row in self.rows:
            self.check((row["strain"], row["spawn"]) in wishes, f"nobody wished for {row}")
        gaps = {row["gap"] for row in self.rows}
        self.check(gaps == {0}, f"the column `gap` holds {gaps}")

    def placed_of(self, wish):
        return sum(row["logs"] for row in self.placed[wish].values())

    def wood(self, wood):
        """Placed logs of a wood."""
        return sum(woods[wood]["logs"] for woods in self.placed.values() if wood in woods)

    def feasible(self):
        marked = [tree for unit in self.question.units for tree in unit]
        others = [tree["tag"] for tree in self.felled if tree not in marked]
        self.check(not others, f"trees come down that are to stay or are down already: {others}")
        for unit in self.question.units:
            falls = {tree in self.felled for tree in unit}
            self.check(len(falls) == 1, f"the clump {unit[0].get('clump')} of {unit[0]['stand']} is divided")
        for stand, limit in self.question.limits.items():
            out = sum(square_feet(tree["dbh"]) for tree in self.felled if tree["stand"] == stand)
            self.check(out <= limit + 1e-5, f"{out:.5f} square feet come out of {stand}, more than {limit:.5f}")
        for wish in self.farm.wishes:
            self.check(self.placed_of(wish) <= wish.wanted, f"{wish} gets more than the {wish.wanted} logs wished for")
        for wood in sorted({wood for woods in self.placed.values() for wood in woods}):
            cut = sum(self.logs[tree["tag"]] for tree in self.felled if tree["wood"] == wood)
            there = self.question.left[wood] + cut
            self.check(self.wood(wood) <= there, f"{self.wood(wood)} logs of {wood} are placed, and {there} are there")
            waiting = [wish for wish in self.placed if wood in self.placed[wish] and not self.question.has_day(wish, wood)]
            alone = sum(self.placed[wish][wood]["logs"] for wish in waiting)
            left = self.question.left[wood]
            self.check(alone <= left, f"{alone} logs of {wood} go where trees have no day, and {left} lie ready")

    def rated(self):
        for wish, woods in self.placed.items():
            for wood, row in woods.items():
                pair = self.question.pair(wish, wood)
                said = (row["rating"], row["word"])
                self.check(said == pair, f"{wish} on {wood} is {said}, and {pair} in the table of pairings")
                self.check(self.question.allows(wish, wood), f"{wish} on {wood} is below the floor {wish.floor}")

    def reached(self):
        """The value of the program's answer, from its tables."""
        everything = [row for woods in self.placed.values() for row in woods.values()]
        places = [place for place, unit in enumerate(self.question.units, 1) if unit[0] in self.felled]
        return (
            sum(row["logs"] for row in everything),
            sum(min(self.question.left[wood], self.wood(wood)) for wood in self.question.woods),
            sum(row["logs"] * (row["rating"] or 0) for row in everything),
            len(places),
            sum(places),
            sum(order * self.placed_of(wish) for order, wish in enumerate(self.farm.wishes)),
        )

    def best(self):
        for stage, best, reached in zip(STAGES, self.question.solve(self.felled), self.reached()):
            self.check(best == reached, f"{stage}: the program reaches {reached}, and {best} is the best")
            if best != reached:
                break

    def shortages(self):
        for wish in self.farm.wishes:
            lacking = wish.wanted - self.placed_of(wish)
            said = [(row["logs"], row["why"]) for row in self.rows_of(wish) if row["wood"] is None]
            wanted = [lacking] if lacking else []
            self.check([logs for logs, _ in said] == wanted, f"{wish} lacks {lacking} logs, and the table says {said}")
            for _, why in said:
                missing = [words for words in self.reasons(wish) if words not in (why or "")]
                self.check(not missing, f"{wish} lacks logs, and the reason `{why}` does not have the words {missing}")
        for row in self.rows:
            self.check(row["wood"] is None or row["why"] is None, f"a row of placed logs says that logs lack: {row}")

    def reasons(self, wish):
        """The words that the shortage of a wish has to be put down to."""
        suits = [wood for wood in self.question.woods if self.question.allows(wish, wood)]
        if not suits:
            return [f"no woods at hand {GOOD_ENOUGH[wish.floor]}"]
        left = [tree for unit in self.question.units for tree in unit if tree not in self.felled]
        suiting = [tree for tree in left if tree["wood"] in suits and self.logs[tree["tag"]]]
        held = {tree["stand"] for tree in suiting if self.question.has_day(wish, tree["wood"])}
        names = sorted(self.farm.stands[stand]["name"] for stand in held & set(self.question.limits))
        if names:
            return [f"the limit of {' and '.join(names)} holds"]
        if any(not self.question.has_day(wish, tree["wood"]) for tree in suiting):
            return ["they have no day to be inoculated"]
        mentioned = [wood for wood in self.question.woods if FLOORS["mentioned"](*self.question.pair(wish, wood))]
        lower = [self.farm.handbook.names[wood] for wood in mentioned if wood not in suits]
        placed = f"every log of the woods that {GOOD_ENOUGH[wish.floor]} is placed"
        return [placed, f"with a lower floor in the plan {', '.join(lower)} could be used"] if lower else [placed]

    def thinned(self):
        for stand, record in self.farm.stands.items():
            felled = [tree for tree in self.felled if tree["stand"] == stand]
            before, after = (self.thinning[(stand, state)] for state in ("before", "after"))
            area, target = (figure(record[key]) if key in record else None for key in ("area", "target"))
            basal_area = self.farm.basal_area(stand)
            wrote = {"area_acres": area, "basal_area_ft2_per_acre": basal_area, "target_ft2_per_acre": target}
            for key, value in wrote.items():
                self.check(close(before[key], value), f"{stand} was written with {key} {value} and has {before[key]}")
            if None not in (area, basal_area):
                rest = max(0.0, basal_area - sum(square_feet(tree["dbh"]) for tree in felled) / area)
                said = after["basal_area_ft2_per_acre"]
                self.check(close(said, rest), f"{rest:.3f} square feet an acre are left in {stand}, not {said}")
            said = (after["felled"], after["logs"])
            counted = (len(felled), sum(self.logs[tree["tag"]] for tree in felled))
            self.check(said == counted, f"{stand} loses {said} trees and logs, and {counted} by the table of trees")


def close(said, wrote):
    """Whether a printed figure is another, rounded to two decimals."""
    return said is wrote if None in (said, wrote) else abs(said - wrote) <= 0.005 + 1e-9


def one(task):
    """Tries one farm: how many checks passed, and the messages of those that failed."""
    seed, folder, handbook = task
    farm = Farm(seed, handbook)
    farm.write(folder)
    try:
        trial = Allocated(farm, folder)
        trial.run()
    except ValueError as error:
        return 0, [f"{folder}: {error}"]
    if not trial.faults:
        rmtree(folder)
    return trial.passed, [f"{folder}: {fault}" for fault in trial.faults]


def main():
    binary, seeds = asked(200)
    try_all(one, seeds, Handbook(binary))


if __name__ == "__main__":
    main()
