"""Names and words that try to be more than text, each beside a tame twin of the same length.

The sheet of the hostile one must have the very elements of its twin: nothing but text differs.
"""

import json
from dataclasses import dataclass

from command_lines import wanted
from markup import shape_of, tree_of
from sheets import ROOT, Sheet

LONGEST_GROUP = 100  # letters of the name of a group of laps

# What is told in words, so that it may differ.
IN_WORDS = ("aria-label",)

_MARKUP = ("<script>alert(1)</script> \"><img src=x onerror=alert(2)> ' onload='alert(3) &lt; "
           "</style></svg>")
_BACKWARDS = "\u05e9\u05dc\u05d5\u05dd \u202etlit\u202c \u0645\u0631\u062d\u0628\u0627 \u200f27"
_LONG = "m" * 500

# Name, the hostile text, its twin and what must stand on the sheet.
TEXTS = (
    ("markup", _MARKUP, None, "script>"),
    ("backwards", _BACKWARDS, None, "\u05e9\u05dc\u05d5\u05dd"),
    ("long", _LONG, ("m" * 9 + " ") * 49 + "m" * 10, "m" * 60),
)


def _tame(text):
    """Marks that mean something in a file exchanged for one that does not, letters for letters."""
    plain = text.translate({ord(c): "~" for c in "<>\"'&"})
    return "".join(c if c.isascii() else "x" for c in plain)


@dataclass
class Twin:
    hostile: Sheet
    tame: Sheet
    shows: str

    def differences(self):
        ours, theirs = (_shape_and_values(each.html) for each in (self.hostile, self.tame))
        words = "".join(tree_of(self.hostile.html)[0].itertext())
        found = [] if self.shows in words else [f"`{self.shows[:20]}` is not on the sheet"]
        for mine, other in zip(ours, theirs):
            if mine != other:
                return found + [f"{mine} where the tame twin has {other}"]
        if len(ours) != len(theirs):
            found.append(f"{len(ours)} elements where the tame twin has {len(theirs)}")
        return found


def _shape_and_values(html):
    tree, _ = tree_of(html)
    values = [tuple((name, "" if name in IN_WORDS else value)
                    for name, value in sorted(each.attrib.items())) for each in tree.iter()]
    return list(zip(shape_of(html), values))


def _kart_file(program, stem, text):
    tame = (ROOT / "scenarios/harbour/harbour-27-sunday.yaml").read_text(encoding="utf-8")
    path = program.day / f"{stem}.yaml"
    assert "kart: harbour 27\n" in tame
    path.write_text(tame.replace("kart: harbour 27\n", f"kart: {json.dumps(text)}\n"),
                    encoding="utf-8")
    return str(path)


def _laps_file(program, stem, text):
    rows = (ROOT / "scenarios/harbour/rear-width-a-b-a.csv").read_text(encoding="utf-8")
    path = program.day / f"{stem}.csv"
    quoted = '"' + text[:LONGEST_GROUP].replace('"', '""') + '"'
    path.write_text(rows.replace("1380 mm", quoted), encoding="utf-8")
    return str(path)


def _log_file(program, stem, text):
    """A log with one run, all of whose words are `text`."""
    path = str(program.day / f"{stem}.db")
    program.run(["log", "add", "--log", path, "--kart", _kart_file(program, stem + "-kart", text),
                 "--at", "2026-11-14 10:30", "--track", "green", "--laps", "33.9 31.42 31.38 31.44",
                 "--session", text, "--driver", text, "--tyres", text, "--load", text, "--note",
                 text, "--said", text])
    return path


# What a text gets into, by command line.
PLACES = {
    "advise-kart": lambda p, s, t: ["advise", "--kart", _kart_file(p, s, t), "--track", "green",
                                    "--said", "pushes going in", "--why"],
    "advise-said": lambda p, s, t: ["advise", "--track", "green", "--said", t],
    "weigh-kart": lambda p, s, t: ["weigh", "--kart", _kart_file(p, s, t)],
    "whatif-kart": lambda p, s, t: ["whatif", "--kart", _kart_file(p, s, t), "--set",
                                    "rear-width=1380mm"],
    "plan-kart": lambda p, s, t: ["plan", "--kart", _kart_file(p, s, t)],
    "compare-groups": lambda p, s, t: ["compare", "--csv", _laps_file(p, s, t)],
    "learned-kart": lambda p, s, t: ["learned", "--log", _log_file(p, s, t), "--kart", t],
    "log-run": lambda p, s, t: ["log", "show", "1", "--log", _log_file(p, s, t)],
}


def _twin(program, place, name, text, tame, shows):
    make = PLACES[place]
    stem = f"hostile-{place}-{name}"
    hostile = program.sheet(stem, make(program, stem, text))
    return Twin(hostile, program.sheet(stem + "-tame", make(program, stem + "-tame", tame)), shows)


def twins(program):
    for place, make in PLACES.items():
        if wanted([place.split("-")[0]]):
            for name, text, tame, shows in TEXTS:
                yield _twin(program, place, name, text, tame or _tame(text), shows)
