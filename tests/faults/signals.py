"""Signals at moments drawn by lot through what takes long and what writes, and two that write at
once: nothing half-written, no lock left, and the next run works and clears up."""

import json
import random
import shutil
import signal
import subprocess
import time

from box import LONGEST, run, surroundings, what_stands_in
from commands import COMMANDS, KART, LOG

SEED = 53
SIGNALS = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP, signal.SIGPIPE, signal.SIGKILL)
NEAR_THE_END = 0.6  # of a run; half of the signals come after that, where files are written

# What is broken off, and the command that must work afterwards.
BROKEN_OFF = {
    "batch": ["advise", "--batch", "many.jsonl", "--brief"],
    "log-add": ["log", "add", *LOG, *KART, "--track", "green", "--laps", "31.5 31.4", "--at",
                "2024-11-15 10:30"],
    "apply": ["apply", *KART, "--set", "rear-width=1390mm"],
    "apply-log": ["apply", *KART, *LOG, "--set", "rear-width=1390mm", "--at", "2024-11-15 09:30"],
    "weigh-save": ["weigh", *KART, "--lf", "35kg", "--rf", "34.5kg", "--lr", "48kg", "--rr",
                   "47.5kg", "--save"],
    "import": ["log", "import", "season.json", "--log", "season.db"],
}


def season_of(runs):
    """An export of so many runs, the last run of the box again and again."""
    head, *lines, _ = runs.splitlines()
    run_line = json.loads(lines[-1].rstrip(","))
    many = []
    for n in range(400):
        run_line["at"] = f"2025-{1 + n // 28 % 12:02}-{1 + n % 28:02}T{n // 336:02}:30:00"
        many.append(json.dumps(run_line, separators=(",", ":"), ensure_ascii=False))
    return head + "\n" + ",\n".join(many) + f'\n],"count":{len(many)}}}\n'


def make_ready(box, folder):
    (folder / "season.json").write_text(season_of((folder / "export.json").read_text()))
    (folder / "many.jsonl").write_text((folder / "lines.jsonl").read_text() * 50)
    return folder


def started(box, words, folder):
    return subprocess.Popen([str(box.program), *words], cwd=folder, env=surroundings(folder),
                            stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                            stderr=subprocess.PIPE)


def left_over(name):
    """What a writer that was ended may leave, which the next one clears up."""
    return name.endswith((".being-written", "-journal"))


class Victim:
    """A command that is broken off again and again, beside what comes of it when it is not."""

    def __init__(self, box, name):
        self.box, self.name, self.words = box, name, BROKEN_OFF[name]
        folder = make_ready(box, box.fresh(f"signals-{name}"))
        self.before = what_stands_in(folder)
        begun = time.monotonic()
        if run(box.program, self.words, folder).exit != 0:
            raise SystemExit(f"cannot be broken off: {self.words}")
        self.takes = time.monotonic() - begun
        self.after = what_stands_in(folder)

    def break_off(self, number, moment):
        """Ends it by a signal at a moment; gives its exit code and what is wrong."""
        folder = make_ready(self.box, self.box.fresh(f"signals-{self.name}"))
        process = started(self.box, self.words, folder)
        time.sleep(moment)
        process.send_signal(number)
        process.communicate(timeout=LONGEST)
        return process.returncode, list(self._wrong(number, process.returncode, folder))

    def _wrong(self, number, exit_code, folder):
        if exit_code not in (0, -number):
            yield f"exit code {exit_code}"
        look = self.box.top / f"look-{self.name}"  # since looking into a log clears up as well
        shutil.rmtree(look, ignore_errors=True)
        shutil.copytree(folder, look)
        files = what_stands_in(look)
        yield from self._half_written(files)
        if exit_code == 0 and files != self.after:
            yield "exit code 0, but not done"
        if all(files.get(name) == holds for name, holds in self.after.items()):
            return
        again = run(self.box.program, self.words, folder)
        if again.exit != 0:
            yield f"the next run: exit code {again.exit}: {again.err.strip()}"
        elif what_stands_in(folder) != self.after:
            yield "the next run does not come to the same"

    def _half_written(self, files):
        for name, holds in files.items():
            empty_log = name == "season.db" and holds and "INSERT INTO" not in holds
            if left_over(name) or empty_log:
                continue
            if holds not in (self.before.get(name), self.after.get(name)):
                yield f"half-written: {name}"


def moments(dice, takes):
    """One at any time of a run, and one near its end."""
    return dice.uniform(0, takes), dice.uniform(NEAR_THE_END * takes, 1.1 * takes)


def check_signals(box, rounds, told):
    dice = random.Random(SEED)
    ended_early = 0
    for name in BROKEN_OFF:
        victim = Victim(box, name)
        for turn in range(rounds):
            for number in SIGNALS:
                for moment in moments(dice, victim.takes):
                    exit_code, found = victim.break_off(number, moment)
                    ended_early += exit_code < 0
                    told(f"signals: {name} ({turn}) {number.name} after {moment:.4f} s", found)
    told("signals: some came in time", [] if ended_early > rounds else ["none"])


def check_left_over(box, told):
    """A new text whose writer was ended is cleared away by the next one, and nothing else is."""
    folder = box.fresh()
    (folder / "kart.yaml.being-written").write_text("half of a ka")
    (folder / "kart.yaml.being").write_text("the crew's own")
    ended = run(box.program, BROKEN_OFF["apply"], folder)
    names = {path.name for path in folder.iterdir()}
    found = [] if ended.exit == 0 else [ended.err]
    if "kart.yaml.being-written" in names or "kart.yaml.being" not in names:
        found.append(f"left: {sorted(names)}")
    told("signals: what a writer left is cleared away", found)


# --- two at once ------------------------------------------------------------------------------

WIDTHS = ("1385mm", "1390mm", "1395mm")


def check_two_at_once(box, rounds, told):
    """Of two that change one kart file each is done or refused, and nothing done is lost."""
    for turn in range(rounds):
        folder = box.fresh()
        first = (folder / "kart.yaml").read_text()
        both = [started(box, ["apply", *KART, "--set", f"rear-width={width}"], folder)
                for width in WIDTHS]
        ended = [(process.communicate(timeout=LONGEST), process.returncode) for process in both]
        done = sum(code == 0 for _, code in ended)
        found = [f"exit code {code}: {err.decode()}" for (_, err), code in ended
                 if code not in (0, 73, 74, 65)]
        texts = {path.read_text() for path in folder.glob("kart.yaml*")}
        wanted = [width for width in WIDTHS if any(f"rear-width: {width[:4]} mm" in text
                                                   for text in texts)]
        if len(wanted) != done or first not in texts:
            found.append(f"{done} done, and {wanted} stand in the files")
        if list(folder.glob("*.being-written")):
            found.append("a new text is left")
        told(f"two at once: a kart file ({turn})", found)


def check_two_in_a_log(box, rounds, told):
    folder = box.fresh()
    add = ["log", "add", *LOG, *KART, "--track", "green", "--laps", "31.5 31.4", "--at"]
    run(box.program, [*add, "2024-11-30 10:30"], folder)  # fills the run that is made ready
    before = run(box.program, ["log", "list", *LOG, "--format", "json"], folder).out.count('"id"')
    done = 0
    for turn in range(rounds):
        both = [started(box, [*add, f"2024-12-{1 + turn:02} 1{n}:30"], folder) for n in range(3)]
        for process in both:
            process.communicate(timeout=LONGEST)
            done += process.returncode == 0
    listed = run(box.program, ["log", "list", *LOG, "--last", "all", "--format", "json"], folder)
    runs = listed.out.count('"id"') - before
    told("two at once: a log", [] if runs == done == 3 * rounds
         else [f"{3 * rounds} asked for, {done} said to be done, {runs} in the log"])


def check_all_signals(box, _library, names, told):
    short = len(names) < len(COMMANDS)
    rounds = 1 if short else 10
    check_left_over(box, told)
    check_two_at_once(box, rounds, told)
    check_two_in_a_log(box, rounds, told)
    check_signals(box, rounds, told)
