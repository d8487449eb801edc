"""Makes the world fail around the program, and says where it does not stand that. tests/faults.sh
calls it.

    run.py PROGRAM LIBRARY [--short] [PART...] [-- COMMAND...]

The parts are those of PARTS, all where none is named; commands are named in commands.py.
"""

import argparse
import sys
import time

from box import Box
from calls import check_calls, names_of
from limits import check_limits_of_readers
from signals import check_all_signals
from surroundings import check_streams, check_surroundings
from trace import check_trace

PARTS = {
    "calls": check_calls,
    "streams": check_streams,
    "surroundings": check_surroundings,
    "limits": check_limits_of_readers,
    "signals": check_all_signals,
    "trace": check_trace,
}
SHORT_PARTS = ("calls", "streams", "limits", "trace")


class Count:
    """What was tried and what failed; a line for each that fails."""

    def __init__(self):
        self.made = self.failed = 0

    def take(self, subject, found):
        self.made += 1
        if not found:
            return
        self.failed += 1
        print(f"FAILED {subject}: {' | '.join(found)}", flush=True)


def arguments():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("program")
    parser.add_argument("library", help="fail.c, compiled")
    parser.add_argument("--short", action="store_true", help="a part of it, in a few seconds")
    parser.add_argument("--only", nargs="*", default=[], help="how names of commands begin")
    parser.add_argument("parts", nargs="*", metavar="PART", help=", ".join(PARTS))
    given = parser.parse_args()
    for part in given.parts:
        if part not in PARTS:
            parser.error(f"no part `{part}`; there are {', '.join(PARTS)}")
    return given


def main():
    given = arguments()
    failed = 0
    for part in given.parts or (SHORT_PARTS if given.short else PARTS):
        count = Count()
        begun = time.monotonic()
        with Box(given.program) as box:
            PARTS[part](box, given.library, names_of(given.short, given.only), count.take)
        print(f"faults: {part}: {count.made} tried, {count.failed} failed, "
              f"{time.monotonic() - begun:.0f} s", flush=True)
        failed += count.failed + (count.made == 0)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
