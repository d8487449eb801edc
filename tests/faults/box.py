"""A folder with everything in it that the program reads and writes, and what stands in it."""

import os
import re
import shutil
import sqlite3
import subprocess
import tempfile
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

# What every command is run in, and nothing else; the state folder stands in the box.
SURROUNDINGS = {"PATH": "/usr/bin:/bin", "LC_ALL": "C.UTF-8", "COLUMNS": "80", "TZ": "UTC"}
LONGEST = 60   # seconds that a command may take before it counts as hanging
HANGS = -1000  # its exit code then

DEBRIEF = "kart: kart.yaml\ntrack: rubbered-in\nsaid: hops hard in the middle\n"
LINES = [
    '{"track": "green", "said": "it pushes going in"}',
    '{"kart": "kart.yaml", "track": "rubbered-in", "said": "hops in the middle"}',
]
LAPS = "lap,time,group\n" + "".join(
    f"{n},{31.4 + 0.01 * (n % 3) - (0.2 if 6 <= n < 11 else 0):.2f},{'B' if 6 <= n < 11 else 'A'}\n"
    for n in range(1, 17))
DRILL = "rear\nrear wider 10\n"
BOTH = ["--log", "day.db", "--kart", "kart.yaml"]


@dataclass
class Ended:
    """How a command ended: its exit code (negative: by that signal) and what it wrote where."""
    exit: int
    out: str
    err: str


@dataclass
class Command:
    """A command line, what is typed into it, and what may come of it beside its answer."""
    words: list
    typed: str = ""
    terminal: bool = False      # keys at a pseudo-terminal, not lines of a script
    without: list = field(default_factory=list)   # files of the box that are not there before
    before: list = field(default_factory=list)    # command lines that come before it


def surroundings(folder, env=None):
    """The whole environment of a command; in `env`, None takes a name out."""
    whole = dict(SURROUNDINGS, HOME=str(folder), XDG_STATE_HOME=str(Path(folder) / "state"))
    for name, value in (env or {}).items():
        if value is None:
            whole.pop(name, None)
        else:
            whole[name] = value
    return whole


@contextmanager
def keys(typed):
    """A pseudo-terminal at which somebody types; what is echoed goes nowhere."""
    near, far = os.openpty()
    try:
        os.write(near, typed.encode())
        yield far
    finally:
        os.close(near)
        os.close(far)


def run(program, words, folder, typed="", env=None, terminal=False):
    """The program in a folder, with what is typed in its standard input."""
    def started(**given):
        return subprocess.run([str(program), *words], cwd=folder, env=surroundings(folder, env),
                              capture_output=True, timeout=LONGEST, check=False, **given)
    try:
        if terminal:
            with keys(typed) as far:
                ended = started(stdin=far)
        else:
            ended = started(input=typed.encode())
    except subprocess.TimeoutExpired:
        return Ended(HANGS, "", f"not done after {LONGEST} seconds")
    return Ended(ended.returncode, ended.stdout.decode(errors="replace"),
                 ended.stderr.decode(errors="replace"))


def working_folder():
    """A new folder in memory where there is one, so that writing costs nothing."""
    memory = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None
    return Path(tempfile.mkdtemp(prefix="kartwright-faults-", dir=memory))


class Box:
    """The folder as it stands before each command, kept, and copies of it."""

    def __init__(self, program):
        self.program = Path(program).resolve()
        self.top = working_folder()
        self.kept = self.top / "kept"
        self.kept.mkdir()
        self._fill()

    def __enter__(self):
        return self

    def __exit__(self, *_):
        shutil.rmtree(self.top, ignore_errors=True)

    def fresh(self, name="box"):
        """A copy, in the place of an earlier one of that name."""
        folder = self.top / name
        shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(self.kept, folder, symlinks=True)
        return folder

    def prepared(self, command, name="box"):
        """A copy that is ready for a command."""
        folder = self.fresh(name)
        for words in command.before:
            self._must(words, folder)
        for file in command.without:
            (folder / file).unlink()
        return folder

    def _must(self, words, folder, typed=""):
        ended = run(self.program, words, folder, typed)
        if ended.exit != 0:
            raise SystemExit(f"cannot make ready: kartwright {' '.join(words)}: {ended.err}")
        return ended.out

    def _fill(self):
        at = self.kept
        (at / "kart.yaml").write_text(self._must(["start", "--example"], at))
        (at / "heat.yaml").write_text(DEBRIEF)
        (at / "lines.jsonl").write_text("\n".join(LINES) + "\n")
        (at / "laps.csv").write_text(LAPS)
        for folder in ("rules", "other-rules"):
            (at / folder).mkdir()
            for name in ("rear-width.yaml", "rear-width.cases.yaml"):
                shutil.copy(ROOT / "rules/adjustments" / name, at / folder)
        (at / "scenarios").mkdir()
        for name in ("heat-1-bent-axle.yaml", "harbour-41.yaml"):
            shutil.copy(ROOT / "scenarios/harbour" / name, at / "scenarios")
        self._must(["apply", "--kart", "kart.yaml", "--set", "rear-width=1370mm"], at)
        for n, said in enumerate(("hops hard in the middle", "no hop now", "hops again")):
            self._must(["log", "add", *BOTH, "--track", "green", "--said", said, "--at",
                        f"2024-11-14 1{n}:30", "--laps", "33.9 31.42 31.38 31.44 31.40 31.41"], at)
            to = ["--undo"] if n == 1 else ["--set", "rear-width=1380mm"]
            self._must(["apply", *BOTH, *to, "--at", f"2024-11-14 1{n}:40"], at)
        self._must(["advise", *BOTH, "--track", "rubbered-in", "--said", "hops hard in the middle"],
                   at)
        (at / "export.json").write_text(self._must(["log", "export", "--log", "day.db"], at))
        (at / "export.csv").write_text(
            self._must(["log", "export", "--log", "day.db", "--format", "csv"], at))
        self._must(["drill", "--trainee", "ann", "--seed", "7"], at, DRILL)


def rows_of(log):
    """All rows of a log, without the moment of its last advice; None where SQLite finds damage.

    It writes into the log, and takes that back, as the program's next run does; this clears up
    what a write left that was broken off.
    """
    with closing(sqlite3.connect(log)) as db:
        if db.execute("PRAGMA integrity_check").fetchall() != [("ok",)]:
            return None
        text = "\n".join(db.iterdump())
        db.isolation_level = None
        db.execute("BEGIN IMMEDIATE")
        db.execute("CREATE TABLE written (n)")
        db.execute("ROLLBACK")
    return re.sub(r"(?<=')20(?!24)\d\d-\d\d-\d\dT\d\d:\d\d:\d\d", "NOW", text)


def what_stands_in(folder):
    """Every file below a folder with its bytes; a log with its rows."""
    found = {}
    for path in sorted(Path(folder).rglob("*.db")):
        found[str(path.relative_to(folder))] = rows_of(path)
    for path in sorted(Path(folder).rglob("*")):
        if path.is_file() and not path.is_symlink() and path.suffix != ".db":
            found[str(path.relative_to(folder))] = path.read_bytes()
    return found
