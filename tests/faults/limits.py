"""The limits of the readers that README.md names: what is just inside is read, what is over is
refused with its place, and none of it takes long or much memory."""

import re
import resource

from box import ROOT, run
from commands import LOG

SUCCESS, BAD_DATA = 0, 65
KIB, MIB = 1 << 10, 1 << 20


def yaml_of(size):
    """A kart file of so many bytes, in comments."""
    line = "# " + "x" * 77 + "\n"
    text = "kart: blue\n" + line * ((size - 11) // len(line))
    return text + "#" * (size - len(text) - 1) + "\n"


def nested(levels):
    return "kart: " + "[" * (levels - 1) + "]" * (levels - 1) + "\n"


def laps_of(count):
    return "lap,time\n" + "".join(f"{n},31.4\n" for n in range(1, count + 1))


def csv_row(size):
    return "lap,time,group\n1,31.4,A\n2,31.5," + " " * (size - 8) + "B\n3,31.4,A\n"


KART = ["advise", "--track", "green", "--kart", "big"]
LAPS = ["compare", "--csv", "big"]
GROUPLESS = ["log", "add", *LOG, "--kart", "kart.yaml", "--csv", "big", "--at", "2024-12-01 10:30"]

# The words of the README, what is just inside, what is over, the command, and what is said of it.
LIMITS = [
    ("1 MiB a file", yaml_of(MIB), yaml_of(MIB + 1), KART, "larger than 1 MiB"),
    ("64 KiB a line", "kart: blue #" + "x" * (64 * KIB - 13) + "\n",
     "kart: blue #" + "x" * (64 * KIB - 12) + "\n", KART, "big:1:"),
    ("32 levels", nested(32), nested(33), KART, "deep"),
    ("64 KiB a row", csv_row(64 * KIB), csv_row(64 * KIB + 1), LAPS, "big:3:"),
    ("100,000 a file", laps_of(100_000), laps_of(100_001), GROUPLESS, "100000 laps"),
    ("64 KiB.", '{"track": "green", "said": "hops"' + " " * (64 * KIB - 34) + "}\n",
     '{"track": "green", "said": "hops"' + " " * (64 * KIB - 33) + "}\n",
     ["advise", "--batch", "big", "--brief"], "too long"),
]


def check_limits_of_readers(box, _library, _names, told):
    section = re.search(r"## What it reads.*?(?=\n## )", (ROOT / "README.md").read_text(), re.S)[0]
    for words, inside, over, command, said in LIMITS:
        folder = box.fresh()
        found = [] if words in section else ["the README does not say so"]
        (folder / "big").write_text(inside)
        ended = run(box.program, command, folder)
        if ended.exit == BAD_DATA and said in ended.err + ended.out:
            found.append(f"refused just inside: {ended.err[:300]}")
        (folder / "big").write_text(over)
        ended = run(box.program, command, folder)
        if ended.exit != BAD_DATA or said not in ended.err + ended.out:
            found.append(f"over: exit code {ended.exit}: {ended.err[:300]}")
        told(f"limit of a reader: {words}", found)
    # All children so far, among them those that read what is too large.
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
    told("limit of a reader: memory", [] if peak < 300 * KIB else [f"{peak} KiB"])
