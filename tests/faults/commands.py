"""One command line for each way in which the program reads or writes a file."""

from box import DRILL, Command

KART = ["--kart", "kart.yaml"]
LOG = ["--log", "day.db"]
CASE = ["--track", "rubbered-in", "--said", "hops hard in the middle"]
ASKED = ["--track", "rubbered-in", "--said", "pushes going in"]
SCALES = ["--lf", "35kg", "--rf", "34.5kg", "--lr", "48kg", "--rr", "47.5kg"]
LAPS = ["--laps", "33.9 31.42 31.38 31.44", "--at", "2024-11-15 10:30"]
WIDER = ["--set", "rear-width=1390mm"]
APPLIED = ["apply", *KART, *LOG, *WIDER, "--at", "2024-11-15 09:30"]

COMMANDS = {
    "advise": Command(["advise", *KART, *CASE]),
    "advise-debrief": Command(["advise", "--debrief", "heat.yaml", "--format", "json"]),
    "advise-sheet": Command(["advise", "--debrief", "heat.yaml", "--format", "html"]),
    "advise-rules": Command(["advise", "--rules", "rules", *CASE]),
    "advise-log": Command(["advise", *KART, *LOG, *CASE]),
    "advise-typed-in": Command(["advise", "--kart", "-", *CASE], typed="kart: from a pipe\n"),
    "advise-batch": Command(["advise", "--batch", "lines.jsonl", "--brief"]),
    "advise-batch-typed-in": Command(["advise", "--batch", "-", "--brief"],
                                     typed='{"track": "green", "said": "it pushes"}\n' * 3),
    "advise-ask": Command(["advise", *KART, "--ask", *ASKED], typed="a bit\nno\nd\n"),
    "advise-ask-keys": Command(["advise", *KART, "--ask", *ASKED],
                               typed="a bit\nno\nd\n", terminal=True),
    "weigh": Command(["weigh", *KART, *SCALES]),
    "weigh-save": Command(["weigh", *KART, *SCALES, "--save"]),
    "whatif": Command(["whatif", *KART, "--track", "green", *WIDER]),
    "plan": Command(["plan", *KART, "--track", "green", "--format", "html"]),
    "plan-log": Command(["plan", *KART, *LOG, "--track", "rubbered-in"]),
    "check": Command(["check", "chain", "--tight", "25mm", "--loose", "39mm", "--drive",
                      "clutch", *KART]),
    "explain": Command(["explain", "caster", "--rules", "rules"]),
    "log-add": Command(["log", "add", *LOG, *KART, "--track", "green", *LAPS]),
    "log-add-first": Command(["log", "add", "--log", "new.db", *KART, "--track", "green", *LAPS]),
    "log-add-laps": Command(["log", "add", *LOG, *KART, "--track", "green", "--csv", "laps.csv",
                             "--at", "2024-11-15 10:30"]),
    "log-add-to": Command(["log", "add", *LOG, "--to", "2", "--track", "green", "--said",
                           "loose off the corner"]),
    "log-list": Command(["log", "list", *LOG]),
    "log-show": Command(["log", "show", "2", *LOG]),
    "log-export": Command(["log", "export", *LOG]),
    "log-export-csv": Command(["log", "export", *LOG, "--format", "csv"]),
    "log-import": Command(["log", "import", "export.json", "--log", "new.db"]),
    "log-import-csv": Command(["log", "import", "export.csv", "--log", "new.db"]),
    "log-import-again": Command(["log", "import", "export.json", *LOG]),
    "log-verify": Command(["log", "verify", *LOG]),
    "apply": Command(["apply", *KART, *WIDER]),
    "apply-log": Command(APPLIED),
    "apply-first-log": Command(["apply", *KART, "--log", "new.db", *WIDER, "--at",
                                "2024-11-15 09:30"]),
    "apply-change": Command(["apply", *KART, *LOG, "--change", "1", "--at", "2024-11-15 09:30"]),
    "apply-undo": Command(["apply", *KART, "--undo"]),
    "apply-undo-log": Command(["apply", *KART, *LOG, "--undo", "--at", "2024-11-15 09:40"],
                              before=[APPLIED]),
    "compare": Command(["compare", "--csv", "laps.csv"]),
    "compare-save": Command(["compare", *LOG, "--runs", "1,2,3", "--save"]),
    "learned": Command(["learned", *LOG, *KART]),
    "drill": Command(["drill", "--seed", "8", "--trainee", "ann"], typed=DRILL),
    "drill-first": Command(["drill", "--seed", "8", "--trainee", "bea"], typed=DRILL),
    "drill-case": Command(["drill", "--case", "heat.yaml"], typed=DRILL),
    "drill-progress": Command(["drill", "--progress", "--trainee", "ann"]),
    "drill-print": Command(["drill", "--print", "2"]),
    "start": Command(["start"]),
    "rules-check": Command(["rules", "check", "--rules", "rules"]),
    "rules-witness": Command(["rules", "check", "--rules", "rules", "--witness", "shown"]),
    "rules-diff": Command(["rules", "diff", "rules", "other-rules", "--scenarios", "scenarios"]),
    "rules-show": Command(["rules", "show", "wider-sheds-side-bite", "--rules", "rules"]),
    "version": Command(["--version"]),
}

# What a short run looks at: they read, write in place, and append.
SHORT = ("advise-debrief", "weigh-save", "drill-first", "compare")
