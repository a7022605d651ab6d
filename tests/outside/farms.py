"""Random farms in a temporary folder, tried by two processes side by side."""

import sys
import tempfile
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import yaml


def write(path, record):
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(yaml.safe_dump(record, sort_keys=False), encoding="utf-8")


class Trial:
    """One farm: what held of it, and what did not."""

    def __init__(self):
        self.passed = 0
        self.faults = []

    def check(self, holds, message):
        if holds:
            self.passed += 1
        else:
            self.faults.append(message)


def asked(count):
    """The program, and the farms to try by the arguments: COUNT of them, by SEED."""
    name = Path(sys.argv[0]).name
    if not 2 <= len(sys.argv) <= 4 or not all(word.isdigit() for word in sys.argv[2:]):
        sys.exit(f"Usage: {name} HOSTWOOD_BINARY [COUNT] [SEED]")
    count, seed = (int(given) for given in (sys.argv[2:] + [str(count), "1"][len(sys.argv) - 2 :]))
    return sys.argv[1], [f"{seed}-{place}" for place in range(count)]


def try_all(one, seeds, given, counted=None):
    """Calls `one` with a seed, a folder and what is given, and ends with what all of them found.

    A farm that fails is left where its message says, to be looked at. What is counted beside stands third in an answer.
    """
    base = Path(tempfile.mkdtemp(prefix="hostwood-farms-"))
    passed = failed = beside = 0
    with ProcessPoolExecutor(max_workers=2) as pool:
        for good, faults, *counts in pool.map(one, [(seed, base / f"farm-{seed}", given) for seed in seeds]):
            passed += good
            failed += len(faults)
            beside += sum(counts)
            for fault in faults:
                print(" ".join(fault.split()))
    if not failed:
        base.rmdir()
    if counted:
        print(f"{beside} of {len(seeds)} {counted}")
    print(f"{passed} passed, {failed} failed")
    sys.exit(1 if failed else 0)
