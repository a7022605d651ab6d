#!/usr/bin/env python3
"""Tries every set of packages that covers what random farms need, and holds the program's purchases to the cheapest.

Usage: supply.py HOSTWOOD_BINARY [COUNT] [SEED]

COUNT is 60 and SEED is 1 where they are left out. A farm that fails is left where the message says, to be looked at.
"""

import json
import random
import subprocess
from fractions import Fraction
from shutil import rmtree

from farms import Trial, asked, try_all, write

# Weights are whole parts of a gram, so small that a tenth of an ounce is a whole number of them.
GRAM = 16_000_000
UNITS = {"pieces": 1, "g": GRAM, "kg": 1000 * GRAM, "oz": 453_592_370, "lb": 16 * 453_592_370}
# How far a printed figure may be from what it stands for, and a hair more for a half that was rounded either way.
SHOWN = {"oz": 0.05001, "lb": 0.05001}
WORDS = {"sawdust": "sawdust spawn", "plug": "plugs", "thimble": "thimbles", "wax": "wax"}
STRAIN, OTHER_STRAIN = "shiitake-wide-range", "another-line"
# Rounding to grams may prefer one of two sets that hold the same to a few grams, and no farm could tell.
SLACK = 5 * GRAM


def amount(text):
    """A quantity in whole parts, and how much of it rounding may hide."""
    value, unit = text.split()
    return int(Fraction(value) * UNITS[unit]), SHOWN.get(unit, 0) * UNITS[unit]


class Farm:
    """A random farm with one wish, and the packages on offer."""

    def __init__(self, seed):
        self.random = random.Random(seed)
        self.spawn = self.random.choice(["plug", "plug", "thimble", "sawdust", "sawdust"])
        self.logs = self.random.randint(1, 60)
        self.wax = f"{self.random.randint(5, 30) / 10} oz" if self.chance(0.5) else None
        self.offers = self.any_offers(self.spawn)
        self.bed = self.any_bed() if self.spawn == "sawdust" and self.chance(0.7) else None
        self.offers += self.any_offers("wax") if self.chance(0.7) else []
        if self.chance(0.4):
            self.offers += self.any_offers("thimble" if self.spawn == "plug" else "plug")
        self.random.shuffle(self.offers)

    def chance(self, part):
        return self.random.random() < part

    def any_bed(self):
        """The spawn that a bed takes, often just what some packages hold."""
        if self.chance(0.5):
            return self.any_weight()
        value, unit = self.random.choice(self.offers)["weight"].split()
        return f"{round(float(value) * self.random.randint(1, 6), 1)} {unit}"

    def any_weight(self):
        unit = self.random.choice(["lb", "lb", "kg"])
        return f"{self.random.choice([self.random.randint(2, 60) / 2, self.random.randint(10, 250) / 10])} {unit}"

    def any_offers(self, item):
        part = self.random.choice([1.0, 1.0, 0.5, 0.0])
        return [self.any_offer(item, self.chance(part)) for _ in range(self.random.randint(1, 4))]

    def any_offer(self, item, priced):
        if item in ("plug", "thimble"):
            pieces = self.random.choice([50, 100, 200, 250, 300, 500, 1000, self.random.randint(40, 1200)])
            offer = {"item": item, "pieces": pieces}
        else:
            offer = {"item": item, "weight": self.any_weight()}
        if priced:
            offer["price"] = self.random.choice([self.random.randint(5, 90), self.random.randint(500, 9000) / 100])
        if item != "wax" and self.chance(0.25):
            offer["strains"] = [self.random.choice([STRAIN, OTHER_STRAIN])]
        return offer

    def write(self, folder):
        farm = {"name": "A random farm", "place": {"latitude": 43.0, "longitude": -72.0}, "season": 2026}
        wish = {"strain": STRAIN, "spawn": self.spawn}
        if self.bed:
            wish["bed"] = {"area": "50 ft2", "depth": "4 in", "spawn": self.bed}
        else:
            wish["logs"] = self.logs
        if self.wax:
            farm["work"] = {"wax_a_log": self.wax}
        lot = {"name": "A lot", "wood": "red-oak", "logs": self.logs + 5, "from": "a random number"}
        plan = {"name": "A winter", "season": 2026, "floor": "untried", "wishes": [wish], "offers": self.offers}
        write(folder / "farm.yaml", farm)
        write(folder / "lots" / "lot.yaml", lot)
        write(folder / "plans" / "winter.yaml", plan)
        write(folder / "strains" / f"{OTHER_STRAIN}.yaml", {"name": "Another line", "mushroom": "shiitake"})

    def needs(self):
        """Each item that has to be bought, and how much, where the records say so."""
        if self.bed:
            return {self.spawn: amount(self.bed)[0]}
        return {self.spawn: None, "wax": amount(self.wax)[0] * self.logs if self.wax else None}

    def packages(self, item):
        """The packages that can be weighed: where some have a price, only those."""
        of_item = [offer for offer in self.offers if offer["item"] == item and STRAIN in offer.get("strains", [STRAIN])]
        priced = [offer for offer in of_item if "price" in offer]
        return [Package(offer) for offer in priced or of_item]


class Package:
    def __init__(self, offer):
        self.size = offer["pieces"] if "pieces" in offer else amount(offer["weight"])[0]
        self.price = round(offer["price"] * 100) if "price" in offer else None

    def is_meant(self, row):
        size, hidden = amount(row["package"])
        cost = None if self.price is None else self.price * row["count"] / 100
        same_cost = row["cost"] is cost if None in (row["cost"], cost) else abs(row["cost"] - cost) < 0.005
        return abs(size - self.size) <= hidden and same_cost


class Basket:
    """So many of each package: what they cost, leave over and are together."""

    def __init__(self, need, packages, counts):
        self.counts = counts
        self.cost = sum(count * (package.price or 0) for package, count in zip(packages, counts))
        self.left = sum(count * package.size for package, count in zip(packages, counts)) - need
        self.number = sum(counts)

    def rank(self):
        return self.cost, self.left, self.number


def fillings(need, sizes):
    """Every way to cover a need that no package less of the last size would cover."""
    most = max(0, -(-need // sizes[0]))
    if len(sizes) == 1:
        yield (most,)
        return
    for count in range(most + 1):
        for rest in fillings(need - count * sizes[0], sizes[1:]):
            yield (count, *rest)


def cheapest(need, packages):
    sizes = [package.size for package in packages]
    return min((Basket(need, packages, counts) for counts in fillings(need, sizes)), key=Basket.rank)


class Ordered(Trial):
    """One farm: the program's purchases, held to a search through every set."""

    def __init__(self, farm, rows):
        super().__init__()
        self.farm, self.rows = farm, rows

    def run(self):
        needs = self.farm.needs()
        items = {row["item"] for row in self.rows}
        self.check(items == {WORDS[item] for item in needs}, f"the table names {items}, and {set(needs)} are needed")
        for item, need in needs.items():
            self.item(item, need, [row for row in self.rows if row["item"] == WORDS[item]])

    def item(self, item, need, rows):
        if item == "wax" and need is None:
            self.nothing(item, rows, "the need is not known")
            return
        shown, hidden = amount(rows[0]["need"])
        if need is not None:
            said = rows[0]["need"]
            self.check(abs(shown - need) <= hidden, f"{item}: {said} are said to be needed, and {need} is")
        packages = self.farm.packages(item)
        if not packages:
            self.nothing(item, rows, "nothing is on offer")
            return
        counts = self.counts(packages, rows)
        if counts is not None:
            low, high = (need, need) if need is not None else (round(shown - hidden), round(shown + hidden))
            self.bought(item, packages, counts, (low, high))
            self.left_over(item, rows, [Basket(end, packages, counts).left for end in (low, high)])

    def nothing(self, item, rows, why):
        said = [tuple(row[key] for key in ("package", "count", "cost", "left_over")) for row in rows]
        self.check(said == [(None,) * 4], f"{item}: {why}, and the table has {rows}")
        self.check(all(row["remark"] for row in rows), f"{item}: {why}, and the table does not say so")

    def counts(self, packages, rows):
        """How many of each package the program buys, and nothing where a row names no package on offer."""
        counts = [0] * len(packages)
        for row in rows:
            left = [place for place, count in enumerate(counts) if not count and row["package"]]
            free = [place for place in left if packages[place].is_meant(row)]
            self.check(bool(free), f"no package on offer is {row}")
            if not free:
                return None
            counts[free[0]] = row["count"]
        return counts

    def bought(self, item, packages, counts, ends):
        """Where rounding hides a part of the need, the answer lies between those for both ends of it."""
        low, high = (cheapest(end, packages) for end in ends)
        mine = Basket(ends[0], packages, counts)
        said = f"{item}: {tuple(counts)} of {[(package.size, package.price) for package in packages]} for {ends}"
        self.check(mine.left >= 0, f"{said} does not cover the need")
        self.check(low.cost <= mine.cost <= high.cost, f"{said} costs {mine.cost}, and {low.counts} costs {low.cost}")
        if low.counts != high.counts or mine.cost != low.cost:
            return
        slack = 0 if item in ("plug", "thimble") else SLACK
        self.check(mine.left <= low.left + slack, f"{said} leaves {mine.left}, and {low.counts} leaves {low.left}")
        if mine.left == low.left:
            self.check(mine.number == low.number, f"{said} is {mine.number} packages, and {low.counts} is {low.number}")

    def left_over(self, item, rows, ends):
        self.check(all(row["left_over"] is None for row in rows[:-1]), f"{item}: {rows} says twice what is left over")
        shown, hidden = amount(rows[-1]["left_over"])
        slack = hidden + (0 if item in ("plug", "thimble") else SLACK)
        holds = min(ends) - slack <= shown <= max(ends) + slack
        self.check(holds, f"{item}: {rows[-1]['left_over']} is said to be left over, and {ends} is")


def one(task):
    """Tries one farm: how many checks passed, and the messages of those that failed."""
    seed, folder, binary = task
    farm = Farm(seed)
    farm.write(folder)
    words = [binary, "reckon", "supply", str(folder), "--as", "json", "--units", "us"]
    done = subprocess.run(words, capture_output=True, encoding="utf-8")
    if done.returncode:
        return 0, [f"{folder}: `reckon supply` ended with {done.returncode}: {done.stderr}"]
    trial = Ordered(farm, json.loads(done.stdout))
    trial.run()
    if not trial.faults:
        rmtree(folder)
    return trial.passed, [f"{folder}: {fault}" for fault in trial.faults]


def main():
    binary, seeds = asked(60)
    try_all(one, seeds, binary)


if __name__ == "__main__":
    main()
