#!/usr/bin/env python3
"""Holds the records of folders to the schemas that the program hands to editors, with a validator that is not its own.

Usage: schemas.py HOSTWOOD_BINARY CONTENT_OR_FARM_DIR...

A folder with a `farm.yaml` is a farm, and its records are laid over those of the folders without one.
"""

import csv
import json
import re
import subprocess
import sys
from pathlib import Path

import yaml
from jsonschema import Draft202012Validator

PASSED_OVER = {"README.md", "LICENSE", "LICENSE.md"}
LINE = re.compile(r"(?P<kind>\S+)\s+(?P<path>[^\s,]+)(?P<sheets> or \.csv)?(?:, (?P<how>.+))?")
STRAY_KEY = "a-key-that-no-kind-has"


class PlainLoader(yaml.SafeLoader):
    """Reads scalars as YAML 1.2 does, so that a date, a time or `no` stays text, and refuses a repeated key."""

    yaml_implicit_resolvers = {}

    def construct_mapping(self, node, deep=False):
        mapping = {}
        for key, value in node.value:
            if not isinstance(key, yaml.ScalarNode) or key.value in mapping:
                raise yaml.constructor.ConstructorError(None, None, "a key that is repeated or no text", key.start_mark)
            mapping[key.value] = self.construct_object(value, deep=True)
        return mapping

    def construct_yaml_int(self, node):
        text = self.construct_scalar(node)
        base = {"0o": 8, "0x": 16}.get(text[:2], 10)
        return int(text[2:] if base != 10 else text, base)

    def construct_yaml_float(self, node):
        return float(self.construct_scalar(node))


for tag, pattern, starts in (
    ("null", r"~|null|Null|NULL|", ["~", "n", "N", ""]),
    ("bool", r"true|True|TRUE|false|False|FALSE", list("tTfF")),
    ("int", r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+", list("-+0123456789")),
    ("float", r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", list("-+.0123456789")),
):
    PlainLoader.add_implicit_resolver(f"tag:yaml.org,2002:{tag}", re.compile(rf"^(?:{pattern})$"), starts)
PlainLoader.add_constructor("tag:yaml.org,2002:int", PlainLoader.construct_yaml_int)
PlainLoader.add_constructor("tag:yaml.org,2002:float", PlainLoader.construct_yaml_float)
PlainLoader.add_constructor("tag:yaml.org,2002:map", PlainLoader.construct_mapping)


def header(text):
    """The YAML between the first two lines of three dashes."""
    lines = text.splitlines()
    if not lines or lines[0] != "---" or "---" not in lines[1:]:
        raise ValueError("a note begins with a header between two lines of three dashes")
    return "\n".join(lines[1 : lines.index("---", 1)])


def sheet(text, schema):
    """The rows of a sheet: a unit in the brackets of a head stands for every bare number below it."""
    heads, *rows = [row for row in csv.reader(text.splitlines()) if any(row)]
    for row in rows:
        record = {}
        for head, cell in zip(heads, row):
            name, _, unit = head.partition("(")
            key = "_".join(name.lower().split())
            kind = schema["properties"][key]
            if cell and kind.get("type") in ("integer", "number"):
                record[key] = int(cell) if cell.lstrip("-").isdigit() else float(cell)
            elif cell in ("true", "false") and kind.get("type") == "boolean":
                record[key] = cell == "true"
            elif cell:
                record[key] = f"{cell} {unit.rstrip(')')}" if unit else cell.lower() if "$ref" in kind else cell
        # A sheet of the day book may name the trouble behind what was done.
        if "trouble" in schema["properties"] and ": " in record.get("what", ""):
            record["what"], record["trouble"] = record["what"].split(": ", 1)
        yield record


def without_nulls(value):
    """An empty key clears a value, so that it is not there when the record is checked."""
    if isinstance(value, dict):
        return {key: without_nulls(one) for key, one in value.items() if one is not None}
    if isinstance(value, list):
        return [without_nulls(one) for one in value]
    return value


def laid_over(under, over):
    """Mappings are merged key by key and anything else is replaced."""
    if isinstance(under, dict) and isinstance(over, dict):
        return under | {key: laid_over(under.get(key), value) for key, value in over.items()}
    return over


class Layout:
    """Where the records of a kind stand, as the program says it in words."""

    def __init__(self, line):
        said = LINE.fullmatch(line.strip())
        if not said or said["how"] not in (None, "each row", "under each id", "the header"):
            raise ValueError(f"this check does not know the layout `{line.strip()}`")
        self.kind, self.path, self.how = said["kind"], said["path"], said["how"]
        self.globs = [self.path.replace("ID", "**/*").replace("NAME", "**/*")]
        if said["sheets"]:
            self.globs.append(self.globs[0].replace(".yaml", ".csv"))

    def records(self, file, schema):
        """The id of each record in a file, and the record; none where the file holds another kind of the same folder."""
        text = file.read_text(encoding="utf-8-sig")
        if file.suffix == ".csv":
            return [(f"{file.name}-{number}", row) for number, row in enumerate(sheet(text, schema), 1)]
        if self.how == "the header":
            text = header(text)
        whole = yaml.load(text, Loader=PlainLoader)
        if len(self.globs) > 1 and isinstance(whole, dict) or self.how is None and isinstance(whole, list):
            return []
        if self.how == "each row":
            if not isinstance(whole, list):
                raise ValueError("a list of rows is wanted")
            return [(f"{file.stem}-{number}", row) for number, row in enumerate(whole, 1)]
        if self.how == "under each id":
            if not isinstance(whole, dict):
                raise ValueError("a mapping from id to record is wanted")
            return list(whole.items())
        return [(file.stem, whole)]


class Run:
    def __init__(self, binary):
        self.binary = binary
        self.passed = 0
        self.failed = 0
        self.layouts = [Layout(line) for line in self.ask("schema").splitlines()]
        self.validators = {}
        self.schemas_by_kind = {}
        self.seen = set()
        self.handbook = {}

    def ask(self, *words):
        return subprocess.run([self.binary, *words], check=True, capture_output=True, encoding="utf-8").stdout

    def check(self, holds, message):
        if holds:
            self.passed += 1
        else:
            self.failed += 1
            print(" ".join(message.split()))

    def schemas(self):
        for layout in self.layouts:
            schema = json.loads(self.ask("schema", layout.kind))
            said = schema.get("$schema")
            self.check(said == Draft202012Validator.META_SCHEMA["$id"], f"schema {layout.kind}: says it is `{said}`")
            try:
                Draft202012Validator.check_schema(schema)
                wrong = None
            except Exception as error:
                wrong = error
            self.check(wrong is None, f"schema {layout.kind}: {wrong}")
            self.schemas_by_kind[layout.kind] = schema
            self.validators[layout.kind] = Draft202012Validator(
                schema, format_checker=Draft202012Validator.FORMAT_CHECKER
            )

    def folder(self, folder):
        """Reads a folder and validates each record in it; returns the records by kind and id."""
        claimed = set()
        records = {}
        is_farm = (folder / "farm.yaml").is_file()
        for layout in self.layouts:
            for file in sorted(file for glob in layout.globs for file in folder.glob(glob)):
                claimed.add(file)
                try:
                    found = layout.records(file, self.schemas_by_kind[layout.kind])
                except (yaml.YAMLError, ValueError) as error:
                    self.check(False, f"{file}: {error}")
                    continue
                for name, record in found:
                    key = (layout.kind, name)
                    # A row of evidence has no id of its own, so a farm's row never amends the handbook's.
                    under = self.handbook.get(key) if is_farm and layout.how != "each row" else None
                    records[key] = laid_over(under, record)
                    self.validate(layout.kind, f"{file}: {name}", without_nulls(records[key]))
        self.stray(folder, claimed, records)
        return records

    def validate(self, kind, place, record):
        validator = self.validators[kind]
        faults = [f"{fault.json_path}: {fault.message[:300]}" for fault in validator.iter_errors(record)]
        self.check(not faults, f"{place} does not fit the schema `{kind}`: {'; '.join(faults)}")
        # A schema that lets everything through would pass every record, so one with a stray key has to be refused.
        if kind not in self.seen and isinstance(record, dict):
            self.seen.add(kind)
            stray = record | {STRAY_KEY: True}
            self.check(not validator.is_valid(stray), f"schema {kind}: lets a key through that it does not have")

    def stray(self, folder, claimed, records):
        look = records.get(("farm", "farm"), {}).get("look")
        for file in sorted(folder.rglob("*")):
            parts = file.relative_to(folder).parts
            hidden = any(part.startswith(".") for part in parts)
            theme = look is not None and parts[0] == look.rstrip("/")
            if file.is_file() and not hidden and not theme and "/".join(parts) not in PASSED_OVER:
                self.check(file in claimed, f"{file}: stands where no kind of record is read")

    def every_kind_seen(self):
        for layout in self.layouts:
            self.check(layout.kind in self.seen, f"schema {layout.kind}: no record of this kind was found to try it on")


def main():
    if len(sys.argv) < 3:
        sys.exit("Usage: schemas.py HOSTWOOD_BINARY CONTENT_OR_FARM_DIR...")
    run = Run(sys.argv[1])
    run.schemas()
    folders = [Path(name) for name in sys.argv[2:]]
    for folder in folders:
        if not folder.is_dir():
            sys.exit(f"There is no folder {folder}.")
    for folder in sorted(folders, key=lambda folder: (folder / "farm.yaml").is_file()):
        records = run.folder(folder)
        if not (folder / "farm.yaml").is_file():
            run.handbook |= records
    run.every_kind_seen()
    print(f"{run.passed} passed, {run.failed} failed")
    sys.exit(1 if run.failed else 0)


if __name__ == "__main__":
    main()
