"""Makes sheets with the program under test, and what the same command line says in JSON."""

import json
import os
import shutil
import subprocess
import tempfile
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


@dataclass
class Sheet:
    name: str
    words: list  # of the command line
    path: Path
    html: str
    json: object = None

    @property
    def url(self):
        return self.path.as_uri()

    @property
    def command(self):
        return " ".join(["kartwright", *self.words])


class Refused(Exception):
    """The program gave no answer where it must."""


class Program:
    """The program, run from the project's root with a state folder of its own."""

    def __init__(self, path, folder):
        self.path = path
        self.folder = Path(folder)
        self.day = self.folder / "day"
        self.env = {"LC_ALL": "C.UTF-8", "PATH": os.environ["PATH"],
                    "XDG_STATE_HOME": str(self.folder / "state")}

    def run(self, words):
        """Standard output. Throws Refused."""
        ended = subprocess.run([self.path, *words], cwd=ROOT, env=self.env, timeout=60,
                               stdin=subprocess.DEVNULL, capture_output=True, check=False)
        if ended.returncode != 0:
            raise Refused(f"{' '.join(words)}: {ended.returncode}: {ended.stderr.decode()[:300]}")
        return ended.stdout.decode("utf-8")

    def with_places(self, words):
        return [word.replace("{day}", str(self.day)) for word in words]

    def can(self, words):
        """True where this command line is answered in a sheet."""
        try:
            return self.run([*self.with_places(words), "--format", "html"]).startswith("<!DOCTYPE")
        except Refused:
            return False

    def sheet(self, name, words, with_json=True):
        words = self.with_places(words)
        html = self.run([*words, "--format", "html"])
        path = self.folder / f"{name}.html"
        path.write_text(html, encoding="utf-8")
        out = Sheet(name, words, path, html)
        if with_json:
            out.json = json.loads(self.run([*words, "--format", "json"]))
        return out

    def sheets(self, command_lines, with_json=True):
        """All of them, in their order, and what was refused; several programs at a time."""
        def one(item):
            try:
                return self.sheet(*item, with_json)
            except Refused as refused:
                return refused

        with ThreadPoolExecutor(os.cpu_count() or 1) as pool:
            out = list(pool.map(one, command_lines.items()))
        return ([each for each in out if isinstance(each, Sheet)],
                [each for each in out if isinstance(each, Refused)])


def make_the_day(program):
    """Kart files, a log and laps, at `program.day`."""
    program.day.mkdir(parents=True)
    (program.day / "example.yaml").write_text(program.run(["start", "--example"]))
    harbour = ROOT / "scenarios" / "harbour"
    blue = program.day / "blue27.yaml"
    shutil.copy(harbour / "harbour-27-sunday.yaml", blue)
    program.run(["log", "import", str(harbour / "weekend.json"), "--log",
                 str(program.day / "weekend.db")])
    program.run(["log", "add", "--log", str(program.day / "one.db"), "--kart", str(blue), "--at",
                 "2026-11-14 10:30", "--track", "green", "--laps", "33.9 31.42 31.38 31.44"])
    (program.day / "few.csv").write_text(
        "lap,time,group\n1,31.5,one\n2,31.6,one\n3,31.2,two\n4,31.3,two\n")


def working_folder():
    return tempfile.TemporaryDirectory(prefix="kartwright-sheets-")
