#!/usr/bin/env python3
"""Mutants of the engine's code: small changes of which a test should notice each. Called by
tests/mutants.sh.

    code.py                         all mutants of the four rooms
    code.py --sample 150            so many of each room, drawn by --seed (53)
    code.py --room chassis          of one room; may be given again
    code.py --at engine/chassis/corner.cc[:LINE]    of one file, or one line
    code.py --suites unit,published ask these alone, of unit, published, property and scenario
    code.py --jobs 2                at once; 1 where not given

It copies the project to build-mutants/tree, builds it once with every mutant in it, sees which
tests reach what, and runs those for each mutant. Mutants that change nothing anybody could see are
named in equivalent.txt, with the reason, and are not counted.
"""

import argparse
import math
import random
import sys
import time
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

sys.dont_write_bytecode = True  # a folder less among the sources
from code_build import ROOMS, SUITES, Copy, Failed, built
from code_run import Runner

ROOT = Path(__file__).resolve().parents[2]


@dataclass(frozen=True)
class Mutant:
    number: int
    site: int
    file: str
    line: int
    operator: str  # `< becomes <=`
    text: str

    @property
    def room(self):
        return self.file.split("/")[1]

    def __str__(self):
        return f"{self.file}:{self.line}: {self.operator}: {self.text}"


def mutants_of(sites):
    return [Mutant(site.number + which, site.number, site.file, site.line,
                   f"{site.what} becomes {becomes}", site.text)
            for site in sites for which, becomes in enumerate(site.becomes)]


class Equivalents:
    """equivalent.txt: lines of `file | part of the expression or its line | operator | why`."""

    def __init__(self, root):
        self.root = root
        self.entries = []
        self.used = Counter()
        for line in (root / "tests/mutants/equivalent.txt").read_text().splitlines():
            if line.strip() and not line.startswith("#"):
                entry = tuple(part.strip() for part in line.split(" | "))
                if len(entry) != 4:
                    raise Failed(f"equivalent.txt: four parts are wanted in `{line}`")
                self.entries.append(entry)

    def has(self, mutant):
        line = (self.root / mutant.file).read_text().splitlines()[mutant.line - 1]
        for entry in self.entries:
            file, text, operator, _ = entry
            if file == mutant.file and operator == mutant.operator and (
                    text in line or text in mutant.text):
                self.used[entry] += 1
                return True
        return False

    def unused(self):
        return [" | ".join(entry) for entry in self.entries if not self.used[entry]]


def interval(killed, run):
    """Of a share, by Wilson, to 95 %."""
    z, share = 1.96, killed / run
    middle = share + z * z / (2 * run)
    width = z * math.sqrt(share * (1 - share) / run + z * z / (4 * run * run))
    return (middle - width) / (1 + z * z / run), (middle + width) / (1 + z * z / run)


def chosen(mutants, options):
    rooms = options.room or ROOMS
    for room in rooms:
        mine = [mutant for mutant in mutants if mutant.room == room]
        if options.at:
            file, _, line = options.at.partition(":")
            mine = [m for m in mine if m.file == file and line in {"", str(m.line)}]
        if options.sample and options.sample < len(mine):
            mine = random.Random(f"{options.seed} {room}").sample(mine, options.sample)
        yield room, sorted(mine, key=lambda mutant: mutant.number)


def tell(room, all_of_it, mutants, survivors, unreached):
    killed = len(mutants) - len(survivors)
    low, high = interval(killed, len(mutants))
    drawn = (f"95 % of such samples hold the share of all within {low:.1%} to {high:.1%}"
             if len(mutants) < all_of_it else "all of them")
    print(f"{room}: {all_of_it} mutants, {len(mutants)} run, {killed} killed, {len(survivors)} "
          f"survived ({unreached} of them reached by no test): {killed / len(mutants):.1%}, "
          f"{drawn}", flush=True)


def suites_of(options):
    asked = options.suites.split(",")
    for suite in asked:
        if suite not in SUITES:
            raise Failed(f"there is no suite `{suite}`: {', '.join(SUITES)}")
    return asked


def run(options):
    started = time.monotonic()
    equivalents = Equivalents(ROOT)
    copy = Copy(ROOT, suites_of(options))
    sites, dropped = built(copy, options.jobs)
    mutants = mutants_of(sites)
    counted = [mutant for mutant in mutants if not equivalents.has(mutant)]
    print(f"{len(sites)} sites, {len(mutants)} mutants, {dropped} sites left out since they do not "
          f"compile, {len(mutants) - len(counted)} mutants equivalent", flush=True)
    runner = Runner(copy)
    runner.look()
    print(f"built and looked through in {time.monotonic() - started:.0f} s; tests that fail by "
          f"themselves and are left out: {', '.join(runner.failing) or 'none'}", flush=True)
    sizes = Counter(mutant.room for mutant in counted)
    for room, mine in chosen(counted, options):
        if not mine:
            continue
        survivors = []
        with ThreadPoolExecutor(options.jobs) as pool:
            for mutant, dead in zip(mine, pool.map(lambda m: runner.kills(m.site, m.number), mine)):
                if not dead:
                    survivors.append(mutant)
                    alone = "" if mutant.site in runner.by_site else " (no test reaches it)"
                    print(f"  {mutant}{alone}", flush=True)
        lonely = [mutant for mutant in survivors if mutant.site not in runner.by_site]
        tell(room, sizes[room], mine, survivors, len(lonely))
    print(f"{time.monotonic() - started:.0f} s")
    for entry in equivalents.unused():
        print(f"equivalent.txt names what is not there: {entry}", file=sys.stderr)
    return 1 if equivalents.unused() else 0


def main():
    parser = argparse.ArgumentParser(description=__doc__,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--room", action="append", choices=ROOMS)
    parser.add_argument("--sample", type=int, default=0)
    parser.add_argument("--seed", type=int, default=53)
    parser.add_argument("--suites", default=",".join(SUITES))
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--at", default="")
    try:
        return run(parser.parse_args())
    except Failed as failed:
        print(f"code.py: {failed}", file=sys.stderr)
        return 70


if __name__ == "__main__":
    sys.exit(main())
