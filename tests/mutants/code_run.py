"""Runs tests of the copy: which sites each reaches, and whether any notices a mutant."""

import math
import os
import resource
import shutil
import subprocess
from collections import defaultdict
from dataclasses import dataclass

from code_build import Failed

MEMORY = 4 << 30  # bytes a test may take
DICE = "seed=53 max_success=30"  # fewer throws than the suite itself makes
BUDGETS = (150, 1500)  # milliseconds of tests for a first and a second look


@dataclass(frozen=True)
class Test:
    suite: str     # the executable
    name: str
    took: int      # milliseconds
    reached: int   # how many sites it reaches

    @property
    def group(self):
        """What gtest calls its suite: tests of one may share what was set up once."""
        return self.suite, self.name.rsplit(".", 1)[0]


class Runner:
    def __init__(self, copy):
        self.copy = copy
        self.working = copy.folder / "working"
        shutil.rmtree(self.working, ignore_errors=True)
        self.working.mkdir()
        self.by_site = defaultdict(list)   # the tests that reach a site
        self.by_group = defaultdict(list)
        self.failing = []                  # names of those that fail without any mutant

    def run(self, suite, names, mutant=0, seconds=600, reached=None):
        """Whether all of these tests pass. Time is that of the processor: others may be busy."""
        environment = dict(os.environ, RC_PARAMS=DICE, KARTWRIGHT_MUTANT=str(mutant),
                           TMPDIR=str(self.working), HOME=str(self.working),
                           GTEST_FILTER=":".join(names))
        if reached is not None:
            environment["KARTWRIGHT_REACHED"] = str(reached)

        def limits():
            resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
            resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
            resource.setrlimit(resource.RLIMIT_CORE, (0, 0))

        command = [self.copy.suite(suite), "--gtest_brief=1"]
        if reached is None:
            command.append("--gtest_fail_fast")
        try:
            return subprocess.run(command, env=environment, preexec_fn=limits, check=False,
                                  stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                                  stderr=subprocess.DEVNULL, cwd=self.working,
                                  timeout=60 + 20 * seconds).returncode == 0
        except subprocess.TimeoutExpired:
            return False

    # --- what reaches what ------------------------------------------------------------------------

    def groups_of(self, suite):
        listed = subprocess.run([self.copy.suite(suite), "--gtest_list_tests"], check=True,
                                capture_output=True, text=True).stdout
        groups, tests = {}, []
        for line in listed.splitlines():
            name = line.split("#")[0].strip()
            if line.startswith("  "):
                tests.append(name)
            elif name.endswith("."):
                tests = groups.setdefault(name[:-1], [])
        return groups

    def look(self):
        """Runs every group of tests in a process of its own, without any mutant."""
        for suite in self.copy.suites:
            for group, names in self.groups_of(suite).items():
                self.look_at(suite, group, names)
        if not self.by_site:
            raise Failed("no test reaches any site")

    def look_at(self, suite, group, names):
        note = self.working / "reached"
        note.unlink(missing_ok=True)
        passes = self.run(suite, [f"{group}.*"], reached=note)
        lines = note.read_text().splitlines() if note.exists() else []
        found = {line.split()[0]: line.split()[1:] for line in lines}
        for name in (f"{group}.{name}" for name in names):
            took, *sites = found.get(name, ["0"])
            if name not in found or (not passes and not self.run(suite, [name])):
                self.failing.append(f"{suite}: {name}")
                continue
            test = Test(suite, name, int(took), len(sites))
            self.by_group[test.group].append(test)
            for site in sites:
                self.by_site[int(site)].append(test)

    # --- mutants ----------------------------------------------------------------------------------

    def kills(self, site, mutant):
        """Whether a test notices it: those that are about little else first, then all that reach
        the site and those beside them."""
        tests = sorted(self.by_site.get(site, []), key=lambda test: (test.reached, test.took))
        done = []
        for budget in BUDGETS:
            chosen, spent = [], 0
            for test in tests:
                spent += test.took + 1
                if spent > budget and chosen:
                    break
                chosen.append(test)
            if len(chosen) > len(done) and self.any_fails(chosen[len(done):], mutant):
                return True
            done = chosen
        groups = {test.group for test in tests}
        everything = [test for group in sorted(groups) for test in self.by_group[group]]
        return self.any_fails(everything, mutant)

    def any_fails(self, tests, mutant):
        for suite in self.copy.suites:
            mine = [test for test in tests if test.suite == suite]
            expected = sum(test.took for test in mine) / 1000
            if mine and not self.run(suite, [test.name for test in mine], mutant,
                                     math.ceil(3 + 5 * expected)):
                return True
        return False
