"""The command lines whose sheets are looked at, and the commands that cannot answer in a sheet yet.

`{day}` is a folder made for the tests: kart files, a log and laps stand in it.
"""

# Left out until they answer in a sheet. In the end nothing stands here.
PENDING = ()

ALL_COMMANDS = ("advise", "weigh", "whatif", "explain", "plan", "compare", "learned", "log")

HARBOUR = "scenarios/harbour/"
KART = ["--kart", "{day}/example.yaml"]
BLUE = ["--kart", "{day}/blue27.yaml"]
LOG = ["--log", "{day}/weekend.db"]
SCALES = ["--lf", "36.1kg", "--rf", "34.4kg", "--lr", "49.6kg", "--rr", "46.9kg"]
LIFTED = ["--lifted", "--raised", "front", "--lift", "220mm", "--level", "205lb", "--up", "214lb",
          "--mass", "378lb"]


def _debrief(name, *more):
    return ["advise", "--debrief", f"{HARBOUR}{name}.yaml", *more]


_ADVISE = {
    "advise-change": _debrief("heat-2"),
    "advise-imperial": _debrief("heat-2", "--units", "imperial"),
    "advise-why": _debrief("heat-2", "--why"),
    "advise-why-imperial": _debrief("heat-3-rain-came", "--why", "--units", "imperial"),
    "advise-after": _debrief("heat-2", "--after"),
    "advise-why-not": _debrief("heat-2", "--why-not", "rear-width:narrower", "--why-not",
                               "narrow-rear-on-rubber-has-too-much"),
    "advise-everything": _debrief("heat-2", "--why", "--after", "--turns", "--draws", "400",
                                  "--why-not", "axle:softer", "--together", "3"),
    "advise-stop": _debrief("heat-1-bent-axle"),
    "advise-stop-several": _debrief("heat-2-knock", "--why"),
    "advise-leave-alone": _debrief("practice-2-keep-the-room"),
    "advise-faster": _debrief("final-faster-and-loose", "--units", "imperial"),
    "advise-wait": _debrief("practice-2-wait-for-rubber"),
    "advise-ask-again": _debrief("heat-1-conflicting"),
    "advise-wet": _debrief("final-wet-push"),
    "advise-at-the-limit": _debrief("heat-2-at-the-class-limit"),
    "advise-no-parts": _debrief("practice-2-no-parts"),
    "advise-unknown-track": _debrief("practice-1-unknown-track"),
    "advise-half-understood": _debrief("heat-1-half-understood"),
    "advise-longest-table": _debrief("heat-3-rain-came", "--why", "--after"),
    "advise-no-kart": ["advise", "--track", "rubbered-in", "--said",
                       "pushes going in, hops hard in the middle"],
    "advise-no-kart-imperial": ["advise", "--track", "wet", "--report", "push@entry=3", "--units",
                                "imperial"],
    "advise-shortest": ["advise", "--track", "green", "--report", "push@mid=0"],
    "advise-three-words": ["advise", *KART, "--track", "green", "--said", "it is loose"],
    "advise-log": ["advise", *LOG, *BLUE, "--track", "rubbered-in", "--said",
                   "hops hard in the middle", "--why"],
}

_AT_THE_BENCH = {
    "weigh-no-kart": ["weigh", "--lf", "75lb", "--rf", "75.5lb", "--lr", "114lb", "--rr", "114.5lb",
                      "--resolution", "0.2lb"],
    "weigh-kart": ["weigh", *KART, *SCALES],
    "weigh-kart-imperial": ["weigh", *KART, *SCALES, "--units", "imperial"],
    "weigh-in-the-file": ["weigh", *BLUE],
    "weigh-swapped": ["weigh", "--lf", "37kg", "--rf", "34kg", "--lr", "48kg", "--rr", "51kg",
                      "--swapped", "36.8kg,34.2kg,48.1kg,50.9kg"],
    "weigh-lifted": ["weigh", *LIFTED, "--wheelbase", "1045mm"],
    "weigh-lifted-metric": ["weigh", *KART, "--lifted", "--raised", "rear", "--lift", "220mm",
                            "--level", "75kg", "--up", "80kg"],
    "whatif-size": ["whatif", "--track", "cold", "--set", "mass-height=300mm"],
    "whatif-one": ["whatif", "--track", "rubbered-in", "--set", "rear-width=1380mm"],
    "whatif-imperial": ["whatif", *KART, "--track", "green", "--set", "rear-width=1380mm",
                        "--units", "imperial"],
    "whatif-many": ["whatif", *KART, "--track", "wet", "--set", "caster=14deg", "--set",
                    "mass-height=300mm", "--set", "front-width=1200mm", "--set",
                    "rear-width=1390mm"],
    "whatif-sweep": ["whatif", *KART, "--sweep", "rear-width=1320mm..1400mm"],
    "whatif-sweep-imperial": ["whatif", *BLUE, "--sweep", "caster=8deg..16deg", "--units",
                              "imperial"],
}

_DAY_AND_LOG = {
    "plan-no-kart": ["plan"],
    "plan-kart": ["plan", *KART],
    "plan-imperial": ["plan", "--kart", HARBOUR + "harbour-41.yaml", "--units", "imperial"],
    "plan-stages": ["plan", *KART, "--stages", "cold=1h,green=2h,rubbered-in=1h", "--changes", "3"],
    "plan-debrief": ["plan", "--debrief", HARBOUR + "practice-2-green-push.yaml"],
    "plan-log": ["plan", *BLUE, "--track", "green", *LOG],
    "compare-csv": ["compare", "--csv", HARBOUR + "rear-width-a-b-a.csv"],
    "compare-worth": ["compare", "--csv", HARBOUR + "rear-width-a-b-a.csv", "--worth", "0.3s"],
    "compare-runs": ["compare", *LOG, "--runs", "42,43,44"],
    "compare-few": ["compare", "--csv", "{day}/few.csv"],
    "learned": ["learned", *LOG, *BLUE],
    "learned-calibration": ["learned", *LOG, *BLUE, "--calibration", "--track", "rubbered-in"],
    "learned-nothing": ["learned", "--log", "{day}/one.db", *BLUE],
    "log-show": ["log", "show", "43", *LOG],
    "log-show-first": ["log", "show", "1", *LOG],
    "log-show-imperial": ["log", "show", "20", *LOG, "--units", "imperial"],
}

_EXPLAIN = {
    "explain-list": ["explain"],
    "explain-symptom": ["explain", "hop"],
    "explain-symptom-front": ["explain", "push"],
    "explain-adjustment": ["explain", "rear-width"],
    "explain-adjustment-grades": ["explain", "axle", "--units", "imperial"],
    "explain-fault": ["explain", "bent-axle"],
    "explain-track": ["explain", "rubbered-in"],
    "explain-fact": ["explain", "turn-in"],
    "explain-message": ["explain", "K003"],
    "explain-rule": ["explain", "wider-sheds-side-bite"],
}

COMMAND_LINES = {**_ADVISE, **_AT_THE_BENCH, **_DAY_AND_LOG, **_EXPLAIN}


def wanted(command_line):
    return command_line[0] not in PENDING


def chosen(names):
    """The command lines to look at whose names begin so; all of them where no name is given."""
    return {name: words for name, words in COMMAND_LINES.items()
            if wanted(words) and name.startswith(tuple(names or [""]))}
