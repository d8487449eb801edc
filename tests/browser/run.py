"""Opens every sheet in a browser and says what is wrong with it. Called by tests/browser.sh.

    run.py PROGRAM [NAME...]            all sheets, or those whose names start with one of these
    run.py PROGRAM --pictures FOLDER    no checks: a picture of each at every size
"""

import sys
import time

import hostile
import pictures
import teeth
from checks import GROUPS, faults_of
from command_lines import ALL_COMMANDS, COMMAND_LINES, PENDING, wanted
from sheets import Program, make_the_day, working_folder
from window import Window

SHOWN = 3  # faults of one group and sheet that are told


class Count:
    """Checks made and failed; a line for each that fails."""

    def __init__(self):
        self.made = self.failed = 0

    def take(self, group, subject, found):
        self.made += 1
        if not found:
            return
        self.failed += 1
        more = f" (and {len(found) - SHOWN} more)" if len(found) > SHOWN else ""
        print(f"FAILED {group}: {subject}: {' | '.join(found[:SHOWN])}{more}")


def by_group(faults):
    out = {group: [] for group in GROUPS}
    for group, found in faults:
        out[group].append(found)
    return out


def check_sheets(window, sheets, count):
    for sheet in sheets:
        for group, found in by_group(faults_of(window, sheet)).items():
            count.take(group, f"{sheet.name} ({sheet.command})", found)


def check_pending(program, count):
    """A command that answers in a sheet is no longer left out."""
    for name in ALL_COMMANDS:
        words = next(each for each in COMMAND_LINES.values() if each[0] == name)
        answers = program.can(words)
        found = []
        if answers and name in PENDING:
            found = [f"`{name}` answers in a sheet: take it out of PENDING in command_lines.py"]
        count.take("left out", name, found)


def checks(program, chosen):
    count = Count()
    lines = {name: words for name, words in COMMAND_LINES.items()
             if wanted(words) and (not chosen or name.startswith(tuple(chosen)))}
    sheets = program.sheets(lines)
    twins = [] if chosen else hostile.twins(program)
    with Window() as window:
        check_sheets(window, sheets, count)
        for twin in twins:
            for group, found in by_group(faults_of(window, twin.hostile)).items():
                count.take(group, f"{twin.hostile.name}, a hostile one", found)
            count.take("hostile", twin.hostile.name, twin.differences())
        if not chosen:
            good = next(each for each in sheets if each.name == "advise-change")
            for name, found in teeth.misses(window, good):
                count.take("teeth", name, found)
    if not chosen:
        check_pending(program, count)
    print(f"{len(sheets)} sheets, {len(twins)} hostile ones: {count.made} checks, "
          f"{count.failed} failed")
    return 1 if count.failed or not sheets else 0


def main(arguments):
    began = time.monotonic()
    with working_folder() as folder:
        program = Program(arguments[0], folder)
        make_the_day(program)
        if arguments[1:2] == ["--pictures"]:
            return pictures.take(program, arguments[2], arguments[3:])
        failed = checks(program, arguments[1:])
    print(f"{time.monotonic() - began:.0f} s")
    return failed


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
