"""Holds several builds of the program to the same bytes: text, JSON and sheets of every command.

    LOCPATH=FOLDER python3 tests/reproduce.py NAME=PROGRAM NAME=PROGRAM...     two at least

Each runs every command line of tests/browser/command_lines.py in three locales and two time zones.
What it says must be the same bytes everywhere, and those of the first build.
"""

import hashlib
import os
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from itertools import product
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent / "browser"))
from command_lines import COMMAND_LINES  # noqa: E402  (the path comes first)
from sheets import Program, make_the_day  # noqa: E402

LOCALES = ("C.UTF-8", "de_DE.UTF-8", "tr_TR.UTF-8")
ZONES = ("UTC", "Pacific/Auckland")
FORMATS = ("text", "json", "html")
MORE = {  # what has no sheet
    "help": ["--help"],
    "rules-check": ["rules", "check"],
    "rules-list": ["rules", "list"],
    "drill": ["drill", "--seed", "7"],
    "log-list": ["log", "list", "--log", "{day}/weekend.db"],
    "log-export": ["log", "export", "--log", "{day}/weekend.db"],
}


def command_lines():
    for name, words in COMMAND_LINES.items():
        for form in FORMATS:
            yield f"{name}.{form}", [*words, "--format", form]
    yield from MORE.items()


def said(program, words, locale, zone):
    """The exit code and all that one command line says, as one hash and in full."""
    env = {**program.env, "LC_ALL": locale, "TZ": zone, "LOCPATH": os.environ["LOCPATH"]}
    ended = subprocess.run([program.path, *program.with_places(words)], cwd=program.folder, env=env,
                           stdin=subprocess.DEVNULL, capture_output=True, timeout=300, check=False)
    return b"%d\n" % ended.returncode + ended.stdout + b"\n--\n" + ended.stderr


def all_said(path, folder):
    """{(command, locale, zone): bytes} of one build; the folder is the same for every build."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    program = Program(path, folder)
    (folder / "scenarios").symlink_to(Path(__file__).resolve().parents[1] / "scenarios")
    make_the_day(program)
    keys = [(name, locale, zone) for (name, _), locale, zone
            in product(command_lines(), LOCALES, ZONES)]
    words = dict(command_lines())
    with ThreadPoolExecutor(os.cpu_count() or 1) as pool:
        return dict(zip(keys, pool.map(lambda key: said(program, words[key[0]], *key[1:]), keys)))


def first_difference(one, other):
    for number, (left, right) in enumerate(zip(one.splitlines(), other.splitlines()), 1):
        if left != right:
            return f"line {number}: {left[:160]!r} and {right[:160]!r}"
    return "one is longer"


def differences(name, one, other_name, other):
    """Of two {key: bytes} with the same keys."""
    return [f"{key}: {name} and {other_name} differ, {first_difference(one[key], other[key])}"
            for key in one if one[key] != other[key]]


def within(name, answers):
    """Where locale or time zone changes what one build says."""
    return [f"{name}: {command} is another in {locale}, {zone}"
            for (command, locale, zone), text in answers.items()
            if text != answers[command, LOCALES[0], ZONES[0]]]


def main(arguments):
    builds = dict(argument.split("=", 1) for argument in arguments)
    if len(builds) < 2 or "LOCPATH" not in os.environ:
        sys.exit(__doc__)
    wrong, first = [], None
    with tempfile.TemporaryDirectory(prefix="kartwright-builds-") as folder:
        for name, path in builds.items():
            answers = all_said(Path(path).resolve(), Path(folder) / "work")
            digest = hashlib.sha256(b"".join(answers[key] for key in sorted(answers))).hexdigest()
            print(f"{name:12} {len(answers)} answers, {digest[:16]}", flush=True)
            wrong += within(name, answers)
            if first is None:
                first = name, answers
            else:
                wrong += differences(*first, name, answers)
    for line in wrong[:40]:
        print(line, file=sys.stderr)
    if wrong:
        sys.exit(f"reproduce.py: {len(wrong)} answers are not the same")
    print("every build says the same, byte for byte")


if __name__ == "__main__":
    main(sys.argv[1:])
