#!/usr/bin/env python3
"""Holds the year as the program reckons it to other libraries, to four years of Seattle and to what two forests saw.

Usage: year.py YEAR_AT_A_PLACE_BINARY HOSTWOOD_BINARY

The first is the example of that name, which `cargo build --example year_at_a_place` builds.
"""

import csv
import datetime
import json
import math
import re
import shutil
import subprocess
import sys
import tempfile
from calendar import isleap
from importlib.util import find_spec
from pathlib import Path

import numpy as np
from astral import Observer
from astral.sun import elevation, sunrise, sunset
from scipy.integrate import quad
from scipy.interpolate import CubicSpline
from scipy.stats import norm

from farms import write

EXAMPLE_FARM = Path(__file__).resolve().parents[2] / "examples" / "sorrel-hollow"
MONTHS = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
STARTS = np.concatenate([[0], np.cumsum(MONTHS)])
MIDDLES = STARTS[:-1] + MONTHS / 2
DAY = datetime.timedelta(days=1)
SEED = 1
ASSUMED_DEVIATION = 4.0
BASE = 5.0
# A printed figure may be half of its last decimal off, and a hair more for a half that was rounded either way.
THREE_DECIMALS, TWO_DECIMALS = 0.000501, 0.00501
UNITS = {"metric": ("c", 1.0, 0.0), "us": ("f", 1.8, 32.0)}

HARVARD_FOREST = {
    "latitude": 42.5429,
    "means": [-5.17, -4.18, 0.51, 6.93, 12.77, 17.59, 20.31, 19.58, 15.52, 8.97, 3.55, -1.97],
    "deviations": [6.07, 5.17, 5.28, 5.08, 4.40, 3.85, 2.89, 2.89, 4.02, 4.48, 4.90, 5.22],
}
HUBBARD_BROOK = {
    "latitude": 43.9457,
    "means": [-7.15, -6.11, -1.91, 5.60, 12.25, 17.04, 19.37, 18.67, 14.21, 7.91, 2.08, -3.73],
    "deviations": [5.88, 5.44, 5.25, 4.35, 4.16, 3.78, 2.98, 3.03, 4.23, 4.22, 4.61, 5.20],
}
# The mean day on which half of the leaves had coloured: O'Keefe, HF003, 1991 to 2022; Hubbard Brook, crown index 3.
HALF_COLOURED_AT_HARVARD_FOREST = {
    "black cherry": 284.4,
    "quaking aspen": 291.1,
    "serviceberry": 275.5,
    "sugar maple": 281.3,
    "paper birch": 276.8,
    "striped maple": 280.4,
    "red maple": 271.9,
    "gray birch": 276.1,
    "yellow birch": 274.1,
    "red oak": 290.4,
    "beech": 291.7,
    "American chestnut": 284.5,
    "sweet birch": 278.9,
    "white ash": 273.1,
    "black oak": 283.6,
    "white oak": 281.2,
    "blackgum": 273.5,
    "witch-hazel": 276.2,
}
HALF_COLOURED_AT_HUBBARD_BROOK = {"sugar maple": 277.4, "beech": 279.1, "yellow birch": 275.1}
TEN_TREES, THREE_TREES = 281.0, 277.2
# The mean day of slight bud swell, HF003, of the trees that were not yet swollen at the first visit of a spring.
SLIGHT_SWELL_AT_HARVARD_FOREST = {
    "sugar maple": 99,
    "yellow birch": 97,
    "sweet birch": 98,
    "paper birch": 97,
    "beech": 101,
    "white ash": 107,
    "white oak": 109,
    "red oak": 104,
    "black oak": 107,
}
# The program gives the day on which 30 % have coloured, so many days before the one that was seen.
BEFORE_HALF = 4
SITE_ERROR, TREE_ERROR = 7, 14

SEATTLE_BANDS = {"middling": (10, 21), "cool": (5, 16), "warm": (13, 27)}
BOTH = "middling-or-cool"
SEATTLE_YEARS = range(2012, 2016)
DAYS_A_YEAR_ERROR, DAYS_A_WEEK_ERROR = 5.0, 1.0

NORTH_MEANS = [18, 21, 30, 42, 54, 63, 68, 66, 58, 46, 35, 24]
NORTH_DEVIATIONS = [10.6, 9.7, 9.4, 7.9, 7.6, 6.8, 5.4, 5.4, 7.6, 7.6, 8.3, 9.4]
MODELLED_WINDOWS = {
    "dormant",
    "inoculation-totem",
    "inoculation-weather",
    "own-inoculation",
    "fell red-oak",
    "fell sugar-maple",
    "inoculate shiitake on red-oak",
    "inoculate shiitake on sugar-maple",
}


def daylight_tolerance(latitude, polar_near):
    """How many minutes the program's day may differ from that of astral, which works refraction out for itself."""
    if abs(latitude) <= 60:
        return 1.5
    if abs(latitude) <= 65:
        return 4.0
    # Where the sun only grazes the horizon, a hundredth of a degree is many minutes.
    return 60.0 if polar_near else 10.0


def daily_means(means):
    """The usual mean of each day, by the periodic cubic spline through the running sum of the months."""
    yearly = np.dot(means, MONTHS) / 365
    sums = np.concatenate([[0], np.cumsum((np.array(means) - yearly) * MONTHS)])
    sums[-1] = 0
    return yearly + np.diff(CubicSpline(STARTS, sums, bc_type="periodic")(np.arange(366)))


def daily_deviations(deviations):
    """Values of months in straight lines between mid-months."""
    return np.interp(np.arange(365) + 0.5, MIDDLES, deviations, period=365)


def chances(means, deviations, low, high):
    """The chance of each day that its mean lies in a band."""
    sure = deviations == 0
    scale = np.where(sure, 1, deviations)
    chance = norm.cdf(high, means, scale) - norm.cdf(low, means, scale)
    return np.where(sure, (low <= means) & (means <= high), chance)


def sine_day(means, half):
    """Degree-days above the base of a day that runs as one wave, by taking it at many moments."""
    wave = half * np.cos(np.pi * (np.arange(4000) + 0.5) / 4000)
    return np.array([np.maximum(mean + wave - BASE, 0).mean() for mean in means])


def scattered_day(means, deviation):
    """Degree-days above the base over days that scatter about their mean, by integrating over the scatter."""
    if deviation == 0:
        return np.maximum(means - BASE, 0)

    def weighed(temperature, mean):
        return (temperature - BASE) * math.exp(-(((temperature - mean) / deviation) ** 2) / 2)

    def over(mean):
        low, high = max(BASE, mean - 12 * deviation), mean + 12 * deviation
        return quad(weighed, low, high, args=(mean,))[0] if low < high else 0.0

    return np.array([over(mean) for mean in means]) / (deviation * math.sqrt(2 * math.pi))


def place_in_year(date):
    """A date's place among 365 days, from nought; 29 February has that of the day before."""
    days = (date - datetime.date(date.year, 1, 1)).days
    return days - (isleap(date.year) and days >= 59)


def first_after(start, holds):
    """The place of the first day after a start, on the circle of the year, for which something holds."""
    return next(place for place in ((int(start) + step) % 365 for step in range(1, 365)) if holds(place))


class Seattle:
    """Every day of 2012 to 2015, and the normals of those years."""

    def __init__(self):
        # Importing the package would load pandas, and only its file is wanted.
        (folder,) = find_spec("vega_datasets").submodule_search_locations
        with open(Path(folder) / "_data" / "seattle-weather.csv", encoding="utf-8", newline="") as file:
            rows = list(csv.DictReader(file))
        dates = [datetime.date(*(int(part) for part in re.split(r"\D", row["date"])[:3])) for row in rows]
        self.places = np.array([place_in_year(date) for date in dates])
        self.temperatures = np.array([(float(row["temp_max"]) + float(row["temp_min"])) / 2 for row in rows])
        self.complete = dates == [datetime.date(SEATTLE_YEARS[0], 1, 1) + DAY * step for step in range(1461)]
        months = np.array([date.month for date in dates])
        self.means = [round(float(self.temperatures[months == month].mean()), 4) for month in range(1, 13)]
        squares = (self.temperatures - daily_means(self.means)[self.places]) ** 2
        self.deviations = [round(float(np.sqrt(squares[months == month].mean())), 4) for month in range(1, 13)]

    def suits(self, low, high):
        return (self.temperatures >= low) & (self.temperatures <= high)

    def a_week(self, places, low, high):
        """Suitable days of seven, by the four years' days of those places in the year."""
        suits = self.suits(low, high)
        return sum(suits[self.places == place].mean() for place in places)


class Run:
    def __init__(self, example, binary, folder):
        self.example, self.binary, self.folder = example, binary, folder
        self.random = np.random.default_rng(SEED)
        self.passed = 0
        self.failed = 0

    def check(self, holds, message):
        if holds:
            self.passed += 1
        else:
            self.failed += 1
            print(" ".join(message.split()))

    def near(self, said, wanted, tolerance, message):
        """Holds one figure or many to those of another library; returns the worst error."""
        said, wanted = np.asarray(said, dtype=float), np.asarray(wanted, dtype=float)
        if said.shape != wanted.shape:
            self.check(False, f"{message}: {said.shape} figures, and {wanted.shape} are wanted")
            return np.inf
        errors, tolerances = np.broadcast_arrays(np.abs(said - wanted), tolerance)
        # A missing figure is off by nothing that can be compared, so it counts as the worst.
        place = np.argmax(np.nan_to_num(errors - tolerances, nan=np.inf))
        error, most = errors.flat[place], tolerances.flat[place]
        self.check(error <= most, f"{message}: {error:.9f} off, more than {most:.9f}")
        return errors.max()

    def years(self, places):
        common = {"latitude": 45.0, "year": 2026, "means": [10.0] * 12, "deviations": None, "bands": []}
        given = json.dumps([common | place for place in places])
        done = subprocess.run([self.example], input=given, check=True, capture_output=True, encoding="utf-8")
        return json.loads(done.stdout)

    def table(self, name, folder, units="metric"):
        words = [self.binary, "reckon", name, str(folder), "--as", "json", "--units", units]
        done = subprocess.run(words, capture_output=True, encoding="utf-8")
        if done.returncode:
            raise ValueError(f"`reckon {name}` ended with {done.returncode}: {done.stderr}")
        return json.loads(done.stdout)

    def farm(self, name, climate, latitude=43.6, **more):
        record = {"name": name, "place": {"latitude": latitude, "longitude": -72.5}, "season": 2026}
        write(self.folder / name / "farm.yaml", record | {"climate": climate} | more)
        return self.folder / name

    def daylight(self):
        places = [{"latitude": latitude, "year": year} for latitude in range(-60, 71, 5) for year in (2025, 2028)]
        worst = {}
        for place, found in zip(places, self.years(places)):
            error = self.daylight_at(place["latitude"], place["year"], found["daylight_hours"])
            for reach in (60, 65, 70):
                if abs(place["latitude"]) <= reach:
                    worst[reach] = max(worst.get(reach, 0), error)
                    break
        found = ", ".join(f"{error:.2f} up to {reach}°" for reach, error in sorted(worst.items()))
        print(f"Minutes of day length beside astral: {found}")

    def daylight_at(self, latitude, year, said):
        observer = Observer(latitude, 0, 0)
        dates = [datetime.date(year, 1, 1) + DAY * step for step in range(365 + isleap(year))]
        hours = []
        for date in dates:
            try:
                hours.append((sunset(observer, date) - sunrise(observer, date)).total_seconds() / 3600)
            except ValueError:
                noon = datetime.datetime.combine(date, datetime.time(12), datetime.timezone.utc)
                hours.append(24.0 if elevation(observer, noon) > 0 else 0.0)
        polar = [hour in (0.0, 24.0) for hour in hours]
        near = [any(polar[max(0, place - 2) : place + 3]) for place in range(len(polar))]
        tolerances = [daylight_tolerance(latitude, one) / 60 for one in near]
        return 60 * self.near(said, hours, np.array(tolerances), f"day length of {year} at latitude {latitude}")

    def climates(self, count=1000):
        places = [self.any_climate() for _ in range(count)]
        worst = {"monthly means": 0, "daily means": 0, "suitable days a year": 0}
        for number, (place, found) in enumerate(zip(places, self.years(places))):
            name = f"climate {number}"
            means = daily_means(place["means"])
            months = np.add.reduceat(found["daily_means"], STARTS[:-1]) / MONTHS
            deviations = daily_deviations(place["deviations"] or [ASSUMED_DEVIATION] * 12)
            days = [chances(means, deviations, *band).sum() for band in place["bands"]]
            for key, said, wanted in (
                ("monthly means", months, place["means"]),
                ("monthly means", found["month_means"], place["means"]),
                ("daily means", found["daily_means"], means),
                ("suitable days a year", found["suitable_days"], days),
            ):
                worst[key] = max(worst[key], self.near(said, wanted, 1e-6, f"{name}: {key}"))
        found = ", ".join(f"{key} {error:.1e}" for key, error in worst.items())
        print(f"{count} random climates beside scipy: {found}")

    def any_climate(self):
        means = self.gentle_means() if self.chance(0.5) else self.random.uniform(-40, 40, 12)
        deviations = self.random.uniform(0.5, 9, 12)
        # Without scatter a day's chance is one or nought, which no division tells.
        if self.chance(0.3):
            deviations *= self.random.integers(0, 2, 12) if self.chance(0.5) else 0
        lows = self.random.uniform(-20, 30, 4)
        bands = np.column_stack([lows, lows + self.random.uniform(0, 25, 4)])
        scatter = None if self.chance(0.2) else deviations.tolist()
        return {"means": means.tolist(), "deviations": scatter, "bands": bands.tolist()}

    def chance(self, part):
        return self.random.random() < part

    def gentle_means(self):
        """A climate such as a place may have: a wave of the year and some noise."""
        wave = np.cos(2 * np.pi * (np.arange(12) - self.random.uniform(0, 12)) / 12)
        return self.random.uniform(-5, 20) + self.random.uniform(0, 18) * wave + self.random.normal(0, 1, 12)

    def warmth(self, count=8):
        worst = {"means": 0, "degree-days": 0}
        for number in range(count):
            monthly = self.gentle_means().round(2).tolist()
            deviation, span = (round(self.random.uniform(least, most), 2) for least, most in ((0.5, 7), (2, 25)))
            # Without scatter or without a daily range two of the three methods are the plain average.
            deviation, span = (0.0 if number == place else one for place, one in enumerate((deviation, span)))
            climate = {"monthly_means": [f"{mean} C" for mean in monthly], "daily_range": f"{span} C"}
            folder = self.farm(f"warmth-{number}", climate | {"day_to_day_deviation": f"{deviation} C"})
            means = daily_means(monthly)
            warmth = {
                "deviation": np.full(365, deviation),
                "degree_days": np.maximum(means - BASE, 0),
                "degree_days_sine": sine_day(means, span / 2),
                "degree_days_expected": scattered_day(means, deviation),
            }
            for units, (letter, degree, zero) in UNITS.items():
                rows = self.table("climate", folder, units)
                days = [place_in_year(datetime.date.fromisoformat(row["date"])) for row in rows]
                said = f"{folder.name} in {units} units"
                printed = [row[f"mean_{letter}"] for row in rows]
                error = self.near(printed, means[days] * degree + zero, 1e-6, f"{said}: mean")
                worst["means"] = max(worst["means"], error)
                for column, celsius in warmth.items():
                    printed = [row[f"{column}_{letter}"] for row in rows]
                    error = self.near(printed, celsius[days] * degree, THREE_DECIMALS, f"{said}: {column}")
                    worst["degree-days"] = max(worst["degree-days"], error)
        found = ", ".join(f"{key} {error:.1e}" for key, error in worst.items())
        print(f"Tables of {count} climates beside numerical integration: {found}")

    def dormancy(self):
        forests = self.years([HARVARD_FOREST, HUBBARD_BROOK])
        told = [forest[event] for forest in forests for event in ("leaf_colour", "bud_swell")]
        gaps = [one for one in told if isinstance(one, str)]
        if gaps:
            raise ValueError(f"a forest's dates are not modelled: {gaps}")
        harvard, hubbard = (forest["leaf_colour"] + BEFORE_HALF for forest in forests)
        swell = forests[0]["bud_swell"]
        self.seen("Half coloured, ten trees of Harvard Forest", harvard, {"mean": TEN_TREES}, SITE_ERROR)
        self.seen("Half coloured, three trees of Hubbard Brook", hubbard, {"mean": THREE_TREES}, SITE_ERROR)
        self.seen("Half coloured, Harvard Forest", harvard, HALF_COLOURED_AT_HARVARD_FOREST, TREE_ERROR)
        self.seen("Half coloured, Hubbard Brook", hubbard, HALF_COLOURED_AT_HUBBARD_BROOK, TREE_ERROR)
        self.seen("Slight bud swell, Harvard Forest", swell, SLIGHT_SWELL_AT_HARVARD_FOREST, TREE_ERROR)

    def seen(self, series, modelled, observed, most):
        errors = {name: modelled - day for name, day in observed.items()}
        print(f"{series}: day {modelled}; " + ", ".join(f"{name} {error:+.1f}" for name, error in errors.items()))
        for name, error in errors.items():
            self.check(abs(error) <= most, f"{series}: {error:+.1f} days for {name}, more than {most}")

    def seattle(self):
        seattle = Seattle()
        self.check(seattle.complete, "the daily records of Seattle are not the 1461 days of 2012 to 2015")
        normals = {"means": seattle.means, "deviations": seattle.deviations}
        (year,) = self.years([normals | {"latitude": 47.6, "bands": list(SEATTLE_BANDS.values())}])
        for (low, high), expected in zip(SEATTLE_BANDS.values(), year["suitable_days"]):
            real = seattle.suits(low, high).sum() / len(SEATTLE_YEARS)
            said = f"Seattle, {low} to {high} °C: {expected:.1f} suitable days expected a year, and {real:.1f} were"
            print(said)
            self.check(abs(expected - real) <= DAYS_A_YEAR_ERROR, said)
        climate = {
            "monthly_means": [f"{mean} C" for mean in seattle.means],
            "monthly_deviations": [f"{deviation} C" for deviation in seattle.deviations],
        }
        folder = self.farm("seattle", climate, latitude=47.6, grows=["shiitake"])
        bands = {name: [band] for name, band in SEATTLE_BANDS.items()} | {BOTH: list(SEATTLE_BANDS.values())[:2]}
        for strain, ranges in bands.items():
            temperatures = [{"range": [f"{end} C" for end in band]} for band in ranges]
            common = {"stage": "fruiting", "source": "common-practice"}
            record = {"name": strain, "mushroom": "shiitake", "temperatures": [common | one for one in temperatures]}
            write(folder / "strains" / f"{strain}.yaml", record)
        rows = self.table("fruiting", folder)
        for strain, ranges in bands.items():
            self.seattle_weeks(seattle, [row for row in rows if row["strain"] == strain], ranges)

    def seattle_weeks(self, seattle, rows, ranges):
        """The suitable days of each week, least and most over the bands, and for a single band beside the real days."""
        self.check(len(rows) == 53, f"Seattle, {ranges}: {len(rows)} weeks, and 53 touch the year")
        means, deviations = daily_means(seattle.means), daily_deviations(seattle.deviations)
        errors = []
        for row in rows:
            monday = datetime.date.fromisoformat(row["from"])
            places = [place_in_year(monday + DAY * step) for step in range(7)]
            by_band = [chances(means, deviations, *band)[places].sum() for band in ranges]
            said = [row["suitable_days"], row["suitable_days_most"]]
            self.near(said, [min(by_band), max(by_band)], TWO_DECIMALS, f"Seattle, {ranges}: {row['week']}")
            errors.append(abs(row["suitable_days"] - seattle.a_week(places, *ranges[0])))
        if len(ranges) == 1:
            low, high = ranges[0]
            said = f"Seattle, {low} to {high} °C: {np.mean(errors):.2f} days of seven off in a week, on average"
            print(f"{said}; {max(errors):.2f} at worst")
            self.check(np.mean(errors) <= DAYS_A_WEEK_ERROR, said)

    def weeks(self):
        folder = self.folder / "weeks"
        shutil.copytree(EXAMPLE_FARM, folder)
        record = (folder / "farm.yaml").read_text(encoding="utf-8")
        names = set()
        for season in range(2019, 2033):
            dated, count = re.subn(r"(?m)^season: \d+$", f"season: {season}", record)
            self.check(count == 1, f"the example farm says {count} times which season it is")
            (folder / "farm.yaml").write_text(dated, encoding="utf-8")
            dates = [datetime.date.fromisoformat(row["date"]) for row in self.table("climate", folder)]
            first = dates[0]
            length = (first.replace(year=first.year + 1) - first).days
            year = [first + DAY * step for step in range(length)]
            self.check(first.day == 1 and first.year == season, f"season {season} begins on {first}")
            said = f"season {season}: the table of the climate ends on {dates[-1]}, and the twelve months on {year[-1]}"
            self.check(dates == year, said)
            self.weeks_of(season, self.table("fruiting", folder), year)
            names |= {iso_week(date) for date in year}
        self.check({"2020-W53", "2026-W53", "2032-W53"} <= names, "the seasons tried have no year of 53 weeks")

    def weeks_of(self, season, rows, year):
        mondays = sorted({date - DAY * date.weekday() for date in year})
        wanted = [(iso_week(one), one.isoformat(), (one + DAY * 6).isoformat()) for one in mondays]
        strains = {row["strain"] for row in rows}
        self.check(len(strains) > 1, f"season {season}: the strains are {strains}")
        for strain in sorted(strains):
            said = [(row["week"], row["from"], row["to"]) for row in rows if row["strain"] == strain]
            odd = sorted(set(said) ^ set(wanted))
            self.check(said == wanted, f"season {season}: the weeks of {strain} and those of ISO 8601 differ in {odd}")

    def south(self):
        """A farm on the other half of the earth, its months turned by six, has the same year half a year away."""
        sides = {}
        for side, latitude, turn in (("north", 43.6, 0), ("south", -43.6, 6)):
            means, deviations = np.roll(NORTH_MEANS, turn), np.roll(NORTH_DEVIATIONS, turn)
            climate = {
                "monthly_means": [f"{mean} F" for mean in means],
                "monthly_deviations": [f"{deviation} F" for deviation in deviations],
            }
            woods = {"grows": ["shiitake"], "woods": ["red-oak", "sugar-maple"]}
            folder = self.farm(side, climate, latitude=latitude, **woods)
            window = {"name": "Our inoculation season", "kind": "inoculate", "source": "common-practice"}
            window |= {"says": "We drill while it is mild."}
            window |= {"from": "air rises above 50 F", "to": "air falls below 50 F"}
            write(folder / "seasons" / "own-inoculation.yaml", window)
            rows = {row["window"]: row for row in self.table("seasons", folder) if row["basis"] == "model"}
            self.check(set(rows) == MODELLED_WINDOWS, f"{side}: the modelled windows are {sorted(rows)}")
            dates = {name: map(datetime.date.fromisoformat, (row["from"], row["to"])) for name, row in rows.items()}
            sides[side] = {name: [place_in_year(date) for date in both] for name, both in dates.items()}
            self.crossings(side, daily_means((means - 32) / 1.8), sides[side])
        worst = 0
        for name in sorted(set(sides["north"]) & set(sides["south"])):
            away = [(south - north) % 365 for north, south in zip(sides["north"][name], sides["south"][name])]
            # Half of 365 days is 182 one way and 183 the other.
            errors = [min(abs(days - half) for half in (182, 183)) for days in away]
            worst = max(worst, *errors)
            self.check(max(errors) <= 2, f"{name}: the ends come {away} days apart in the two halves of the earth")
        print(f"Modelled windows of the southern half: {worst} days off half a year at worst")

    def crossings(self, side, means, windows):
        """The ends that rest on the mean alone, by the spline's own mean."""
        rises = first_after(means.argmin(), lambda place: means[place] > 10)
        falls = first_after(means.argmax(), lambda place: means[place] < 10)
        swell = first_after(means.argmin(), lambda place: means[place] > 5)
        own, dormant = windows.get("own-inoculation"), windows.get("dormant", [None, None])
        self.check(own == [rises, falls], f"{side}: the mean crosses 10 °C on {[rises, falls]}, not on {own}")
        self.check(dormant[1] == swell, f"{side}: the mean rises above 5 °C on {swell}, not on {dormant[1]}")


def iso_week(date):
    year, week, _ = date.isocalendar()
    return f"{year}-W{week:02}"


def main():
    if len(sys.argv) != 3:
        sys.exit("Usage: year.py YEAR_AT_A_PLACE_BINARY HOSTWOOD_BINARY")
    with tempfile.TemporaryDirectory(prefix="hostwood-year-") as folder:
        run = Run(*sys.argv[1:], Path(folder))
        for part in (run.daylight, run.climates, run.warmth, run.dormancy, run.seattle, run.weeks, run.south):
            try:
                part()
            except ValueError as error:
                run.check(False, f"{part.__name__}: {error}")
    print(f"{run.passed} passed, {run.failed} failed")
    sys.exit(1 if run.failed else 0)


if __name__ == "__main__":
    main()
