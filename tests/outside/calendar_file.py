#!/usr/bin/env python3
"""Reads a guide's calendar file with a library and by the rules of RFC 5545, and holds it to the guide's own tables.

Usage: calendar_file.py GUIDE_DIR
"""

import datetime
import json
import re
import sys
from collections import Counter
from pathlib import Path

from icalendar import Calendar

LONGEST_LINE = 75
DAY = datetime.timedelta(days=1)
TASKS = {"fell": "felling", "soak": "soaking"}
TEXTS = ("SUMMARY", "DESCRIPTION")
PROPERTY = re.compile(r"([A-Z-]+)((?:;[A-Z-]+=[^;:]+)*):(.*)", re.DOTALL)
STAMP = re.compile(r"\d{8}T\d{6}Z")
# A comma, a semicolon or a backslash stands in a text only behind a backslash, and a backslash before nothing else.
TEXT = re.compile(r"(?:[^\\;,\n]|\\[\\;,nN])*")


def unescaped(text):
    return re.sub(r"\\(.)", lambda found: "\n" if found[1] in "nN" else found[1], text)


def short_name(event):
    """What stands before the farm's own part of a name."""
    return str(event.get("UID", "")).partition("@")[0]


class Guide:
    def __init__(self, folder):
        self.data = (folder / "calendar.ics").read_bytes()
        tables = folder / "tables"
        self.rows, self.soaks, self.cautions = (
            json.loads((tables / f"{name}.json").read_text(encoding="utf-8"))
            for name in ("calendar", "soak-rota", "cautions")
        )
        self.passed = 0
        self.failed = 0

    def check(self, holds, message):
        if holds:
            self.passed += 1
        else:
            self.failed += 1
            print(" ".join(message.split()))

    def run(self):
        blocks = self.blocks(self.lines())
        calendar = Calendar.from_ical(self.data)
        events = calendar.walk("VEVENT")
        self.check(calendar.get("VERSION") == "2.0", f"the version is `{calendar.get('VERSION')}`")
        self.check(bool(calendar.get("PRODID")), "the calendar does not say what made it")
        for said in (len(events), len(blocks)):
            self.check(said == len(self.rows), f"{said} entries in the file, and {len(self.rows)} rows in the table")
        self.names(events)
        rows = {row["entry"]: row for row in self.rows}
        for event, block in zip(events, blocks):
            name = short_name(event)
            self.check(name in rows, f"the table has no entry `{name}`")
            if name in rows:
                self.by_rules(name, block, event)
                self.entry(event, rows[name])
        self.soaked()

    def lines(self):
        """The lines of the file, unfolded, after a look at the raw ones."""
        *raw, last = self.data.split(b"\r\n")
        self.check(last == b"", "the file does not end at the end of a line")
        lines = []
        for number, line in enumerate(raw, 1):
            self.check(b"\n" not in line and b"\r" not in line, f"line {number} does not end in CRLF")
            self.check(len(line) <= LONGEST_LINE, f"line {number} has {len(line)} octets, more than {LONGEST_LINE}")
            try:
                text = line.decode("utf-8")
            except UnicodeDecodeError:
                self.check(False, f"line {number} is cut inside a character")
                text = line.decode("utf-8", errors="replace")
            if text.startswith((" ", "\t")) and lines:
                lines[-1] += text[1:]
            else:
                lines.append(text)
        return lines

    def blocks(self, lines):
        """The properties of each entry, by their names."""
        around, blocks, block = [], [], None
        for line in lines:
            if line == "BEGIN:VEVENT":
                block = {}
                blocks.append(block)
            elif line == "END:VEVENT":
                block = None
            elif block is None:
                around.append(line)
            else:
                found = PROPERTY.fullmatch(line)
                self.check(found is not None, f"`{line}` is no property")
                if found:
                    block.setdefault(found[1], []).append((found[2], found[3]))
        whole = around[:1] == ["BEGIN:VCALENDAR"] and around[-1:] == ["END:VCALENDAR"] and block is None
        self.check(whole, "the calendar does not begin and end as one")
        return blocks

    def names(self, events):
        for what, names in (
            ("table", [row["entry"] for row in self.rows]),
            ("file", [str(event.get("UID", "")) for event in events]),
        ):
            twice = [name for name, times in Counter(names).items() if times > 1]
            self.check(not twice, f"the {what} has more than one entry of the names {twice}")
        written = {short_name(event) for event in events}
        missing = {row["entry"] for row in self.rows} - written
        self.check(not missing, f"the file has no entries {sorted(missing)}")

    def by_rules(self, name, block, event):
        """What the library reads without complaint and the standard does not allow."""
        for key in ("UID", "DTSTAMP", "DTSTART", "DTEND", "TRANSP", *TEXTS):
            self.check(len(block.get(key, [])) == 1, f"{name}: {key} stands there {len(block.get(key, []))} times")
        (_, stamp), *_ = block.get("DTSTAMP", [("", "")])
        self.check(STAMP.fullmatch(stamp) is not None, f"{name}: `{stamp}` is no moment of universal time")
        for key in ("DTSTART", "DTEND"):
            (how, date), *_ = block.get(key, [("", "")])
            good = how == ";VALUE=DATE" and re.fullmatch(r"\d{8}", date)
            self.check(good, f"{name}: {key} is `{how}:{date}`, and no date of eight digits")
        for key in TEXTS:
            (_, text), *_ = block.get(key, [("", "")])
            self.check(TEXT.fullmatch(text) is not None, f"{name}: {key} has a sign that wants a backslash: `{text}`")
            read = str(event.get(key, ""))
            self.check(read == unescaped(text), f"{name}: {key} is `{unescaped(text)}`, and the library reads `{read}`")

    def entry(self, event, row):
        name, about = row["entry"], str(event.get("DESCRIPTION", ""))
        self.check(not event.errors, f"{name}: the library says {event.errors}")
        first, after = (event.decoded(key, None) for key in ("DTSTART", "DTEND"))
        for key, date in (("DTSTART", first), ("DTEND", after)):
            self.check(type(date) is datetime.date, f"{name}: {key} is `{date}`, and no date")
        if type(first) is type(after) is datetime.date:
            self.check(first < after, f"{name}: ends on {after} before it begins on {first}")
            said = [first.isoformat(), (after - DAY).isoformat()]
            wanted = [row["from"], row["to"]]
            self.check(said == wanted, f"{name}: lasts from {said} in the file, and from {wanted} in the table")
        title = event.get("SUMMARY")
        self.check(title == row["title"], f"{name}: is called `{title}`, and `{row['title']}` in the table")
        self.check(bool(about.strip()), f"{name}: has no description")
        shown = event.get("TRANSP")
        self.check(shown == "TRANSPARENT", f"{name}: is `{shown}`, so that its days look busy")
        if row["kind"] in TASKS:
            self.warned(name, about.splitlines(), TASKS[row["kind"]])

    def warned(self, name, lines, task):
        """The gravest cautions of the work stand in its entry, in the words of the guide."""
        grave = [one["says"] for one in self.cautions if one["severity"] == "grave" and task in one["tasks"].split()]
        stops = [line.removeprefix("Stop:").strip() for line in lines if line.startswith("Stop:")]
        self.check(bool(stops) or not grave, f"{name}: none of the {len(grave)} grave cautions of {task} stands there")
        foreign = [stop for stop in stops if stop not in grave]
        self.check(not foreign, f"{name}: the guide has no such caution of {task}: {foreign}")

    def soaked(self):
        """Each soak of the rota has an entry of its own, on its day."""
        entries = [row for row in self.rows if row["kind"] == "soak"]
        said = f"{len(entries)} entries of soaks, and {len(self.soaks)} soaks in the rota"
        self.check(len(entries) == len(self.soaks), said)
        for soak in self.soaks:
            of_strain = [row for row in entries if f"-{soak['strain']}-week-" in row["entry"]]
            day = [row for row in of_strain if row["from"] == row["to"] == soak["date"]]
            said = f"the soak of {soak['strain']} on {soak['date']}"
            self.check(len(day) == 1, f"{said} has {len(day)} entries")
            titles = [row["title"] for row in day]
            named = all(re.search(rf"\b{soak['logs']} logs?\b", title) for title in titles)
            self.check(named, f"{said} is of {soak['logs']} logs, and its entry says {titles}")


def main():
    if len(sys.argv) != 2 or not Path(sys.argv[1]).is_dir():
        sys.exit("Usage: calendar_file.py GUIDE_DIR")
    guide = Guide(Path(sys.argv[1]))
    guide.run()
    print(f"{guide.passed} passed, {guide.failed} failed")
    sys.exit(1 if guide.failed else 0)


if __name__ == "__main__":
    main()
