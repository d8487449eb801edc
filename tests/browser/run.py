"""Opens every sheet in a browser and says what is wrong with it. Called by tests/browser.sh.

    run.py PROGRAM [NAME...]                        all sheets, or those whose names begin so
    run.py PROGRAM --pictures FOLDER [NAME...]      no checks: a picture of each at every size
    run.py PROGRAM --picture NAME FILE              the top of one, at a desk
"""

import sys
import time

import hostile
import pictures
import teeth
from checks import GROUPS, faults_of
from command_lines import ALL_COMMANDS, COMMAND_LINES, PENDING, chosen
from sheets import Program, Refused, make_the_day, working_folder
from window import Windows

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
        print(f"FAILED {group}: {subject}: {' | '.join(found[:SHOWN])}{more}", flush=True)

    def take_groups(self, subject, faults):
        for group in GROUPS:
            self.take(group, subject, [found for where, found in faults if where == group])


def check_sheets(windows, sheets, count):
    found = windows.each(lambda window, sheet: list(faults_of(window, sheet)), sheets)
    for sheet, faults in zip(sheets, found):
        count.take_groups(f"{sheet.name} ({sheet.command})", faults)


def check_hostile(windows, program, count):
    twins = list(hostile.twins(program))
    found = windows.each(lambda window, twin: list(faults_of(window, twin.hostile)), twins)
    for twin, faults in zip(twins, found):
        count.take_groups(twin.hostile.name, faults)
        count.take("hostile", twin.hostile.name, twin.differences())
    return len(twins)


def check_teeth(windows, good, count):
    found = windows.each(lambda window, broken: teeth.misses(window, good, broken), teeth.BROKEN)
    for (name, *_), missed in zip(teeth.BROKEN, found):
        count.take("teeth", name, missed)
    return len(teeth.BROKEN)


def check_pending(program, count):
    """A command that answers in a sheet by now is no longer left out."""
    for name in PENDING:
        words = next(each for each in COMMAND_LINES.values() if each[0] == name)
        count.take("left out", name,
                   ["it answers in a sheet: take it out of PENDING in command_lines.py"]
                   if program.can(words) else [])
    for name in set(ALL_COMMANDS) - {words[0] for words in COMMAND_LINES.values()}:
        count.take("left out", name, ["no command line of it is looked at"])


def checks(program, names):
    """The exit code."""
    count = Count()
    sheets, refused = program.sheets(chosen(names))
    for each in refused:
        count.take("answered", str(each), ["no sheet or no JSON of it"])
    told = f"{len(sheets)} sheets"
    with Windows() as windows:
        check_sheets(windows, sheets, count)
        if not names:
            good = next(each for each in sheets if each.name == teeth.GOOD)
            told += f", {check_hostile(windows, program, count)} hostile ones"
            told += f", {check_teeth(windows, good, count)} broken on purpose"
            check_pending(program, count)
    print(f"{told}: {count.made} checks, {count.failed} failed")
    return 1 if count.failed or not sheets else 0


def main(arguments):
    began = time.monotonic()
    with working_folder() as folder:
        program = Program(arguments[0], folder)
        make_the_day(program)
        if arguments[1:2] == ["--picture"]:
            return pictures.take_one(program, *arguments[2:4])
        if arguments[1:2] == ["--pictures"]:
            if len(arguments) < 3:
                sys.exit("browser.sh: --pictures needs a folder")
            return pictures.take(program, arguments[2], arguments[3:])
        failed = checks(program, arguments[1:])
    print(f"browser.sh: {time.monotonic() - began:.0f} s")
    return failed


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except Refused as refused:
        sys.exit(f"browser.sh: the program refused {refused}")
