"""The streams, the environment, the disk and the limits that a program may be started with: closed
ends, no home, odd terminals, full and read-only disks, things that are no file."""

import fcntl
import os
import pty
import re
import shutil
import struct
import subprocess
import termios
import threading
from pathlib import Path

from box import LONGEST, Ended, run, surroundings, what_stands_in
from calls import NOT_FOR_A_CREW, is_empty_one
from commands import COMMANDS, KART, LOG, WIDER

SUCCESS, USAGE, BAD_DATA, NO_INPUT, CANNOT_CREATE, INPUT_OUTPUT = 0, 2, 65, 66, 73, 74
READER_GONE = 141  # by SIGPIPE, as a shell has it


def shell(box, folder, script, env=None):
    """A line of sh, in which `k` is the program."""
    line = f'k() {{ "$KARTWRIGHT" "$@"; }}; {script}'
    whole = dict(surroundings(folder, env), KARTWRIGHT=str(box.program))
    ended = subprocess.run(["/bin/sh", "-c", line], cwd=folder, env=whole, capture_output=True,
                           timeout=LONGEST, check=False, restore_signals=True)
    return Ended(ended.returncode, ended.stdout.decode(errors="replace"),
                 ended.stderr.decode(errors="replace"))


def clean(ended, allowed):
    """What is wrong with how a command ended, where these exit codes may come of it."""
    if ended.exit not in allowed:
        yield f"exit code {ended.exit}, not {' or '.join(map(str, allowed))}: {ended.err.strip()}"
    if NOT_FOR_A_CREW.search(ended.err):
        yield f"words of the machine: {ended.err.strip()}"
    # What is wrong with a text is told all at once.
    if ended.exit not in (SUCCESS, BAD_DATA) and len(messages(ended)) > 1:
        yield f"more than one message: {ended.err.strip()}"


def messages(ended):
    return [line for line in ended.err.splitlines()
            if line.startswith("kartwright: ") or ": error[" in line]


ADVISE = "advise --kart kart.yaml --track rubbered-in --said 'hops'"
APPLY = "apply --kart kart.yaml --log day.db --set rear-width=1390mm"
ADD = "log add --log day.db --kart kart.yaml --track green --laps '31.5 31.4'"
LONG = "for i in 1 2 3 4 5 6 7 8 9; do cat lines.jsonl; done | k advise --batch -"

# What is typed, and the exit codes that it may end with. `stays` where no file may change.
STREAMS = [
    ("stdout closed", f"k {ADVISE} >&-", (INPUT_OUTPUT,)),
    ("stdout closed, a batch", "k advise --batch lines.jsonl >&-", (INPUT_OUTPUT,)),
    ("stdout closed, a change", f"k {APPLY} >&-", (INPUT_OUTPUT,)),
    ("stdout closed, a run added", f"k {ADD} >&-", (INPUT_OUTPUT,)),
    ("stdout full", f"k {ADVISE} >/dev/full", (INPUT_OUTPUT,)),
    ("stdout full, a sheet", "k plan --kart kart.yaml --format html >/dev/full", (INPUT_OUTPUT,)),
    ("stdout full, an export", "k log export --log day.db >/dev/full", (INPUT_OUTPUT,)),
    ("stdout full, a batch", f"{LONG} >/dev/full", (INPUT_OUTPUT,)),
    ("stdout full, a drill", "k drill --seed 1 </dev/null >/dev/full", (INPUT_OUTPUT,)),
    ("stderr closed", f"k {ADVISE} 2>&-", (SUCCESS,)),
    ("stderr closed, a mistake", "k advise --kart none.yaml 2>&-", (NO_INPUT,)),
    ("stderr closed, wrong usage", "k advise --kartt x 2>&-", (USAGE,)),
    ("stderr closed, bad data", "k advise --kart laps.csv 2>&-", (BAD_DATA,)),
    ("stderr closed, questions", "k advise --ask --track green --said hops </dev/null 2>&-",
     (SUCCESS,)),
    ("stderr full, a mistake", "k advise --kart none.yaml 2>/dev/full", (NO_INPUT,)),
    ("stderr full, a change", f"k {APPLY} 2>/dev/full", (SUCCESS,)),
    ("all closed", f"k {ADVISE} <&- >&- 2>&-", (INPUT_OUTPUT,)),
    ("all closed, a change", f"k {APPLY} <&- >&- 2>&-", (INPUT_OUTPUT,)),
    ("stdin closed", f"k {ADVISE} <&-", (SUCCESS,)),
    ("stdin closed, a kart from it", "k advise --kart - --track green <&-", (NO_INPUT,)),
    ("stdin closed, a batch from it", "k advise --batch - <&-", (NO_INPUT,)),
    ("stdin closed, laps from it", "k compare --csv - <&-", (NO_INPUT,)),
    ("stdin closed, an import from it", "k log import - --log day.db <&-", (NO_INPUT,)),
    ("stdin closed, questions", "k advise --ask --track green --said hops <&-", (NO_INPUT,)),
    ("stdin closed, a drill", "k drill --seed 1 <&-", (NO_INPUT,)),
    ("the reader goes away", f"({LONG}; echo $? >code) | head -c 1 >/dev/null; exit $(cat code)",
     (READER_GONE,)),
    ("the reader goes away, and nobody says so",
     f"trap '' PIPE; ({LONG}; echo $? >code) | head -c 1 >/dev/null; exit $(cat code)",
     (INPUT_OUTPUT,)),
    ("the first line of a page", f"k {ADVISE} | head -1", (SUCCESS,)),
]


def check_streams(box, _library, _names, told):
    for name, script, allowed in STREAMS:
        folder = box.fresh()
        before = what_stands_in(folder)
        ended = shell(box, folder, script)
        found = list(clean(ended, allowed))
        files = what_stands_in(folder)
        for file in before:
            if files.get(file) != before[file] and file not in ("kart.yaml", "day.db"):
                found.append(f"changed: {file}")
        changed = files["kart.yaml"] != before["kart.yaml"] or files["day.db"] != before["day.db"]
        if ended.exit == INPUT_OUTPUT and ended.err and ("is done" in ended.err) != changed:
            found.append(f"{'done' if changed else 'not done'}, and told otherwise: {ended.err}")
        if files["day.db"] is None:
            found.append("the log is damaged")
        again = run(box.program, ["log", "verify", *LOG], folder)
        found += [] if again.exit == 0 else [f"the log afterwards: {again.err.strip()}"]
        told(f"streams: {name}", found)


# --- the environment --------------------------------------------------------------------------

ENVIRONMENTS = {
    "no HOME, no XDG_STATE_HOME": {"HOME": None, "XDG_STATE_HOME": None},
    "a HOME that is not there": {"HOME": "/no/such/home", "XDG_STATE_HOME": None},
    "a state folder that is a file": {"XDG_STATE_HOME": "/dev/null"},
    "a relative state folder": {"XDG_STATE_HOME": "state", "HOME": None},
    "nothing at all": {"HOME": None, "XDG_STATE_HOME": None, "LC_ALL": None, "PATH": None,
                       "COLUMNS": None, "TZ": None},
    "a locale that is not there": {"LC_ALL": "xx_XX.UTF-8", "LANG": "yy_YY"},
    "a time zone that is not there": {"TZ": "No/Where"},
    "no TERM": {"TERM": None},
    "TERM=dumb": {"TERM": "dumb"},
    "TERM is nonsense": {"TERM": "\x1b[31m" * 40},
    **{f"COLUMNS={width}": {"COLUMNS": width}
       for width in ("1", "10", "100000", "0", "-5", "", "nonsense", "9" * 40, "80x24", "1e3")},
}
IN_EVERY = ("advise", "advise-sheet", "weigh", "whatif", "plan", "log-list", "log-show", "compare",
            "learned", "drill-case", "explain", "rules-show", "start", "version")
KEEPS_A_RECORD = ("no HOME, no XDG_STATE_HOME", "a HOME that is not there", "nothing at all",
                  "a state folder that is a file", "a relative state folder")


def check_environments(box, names, told):
    usual = {}
    for name in names:
        usual[name] = run(box.program, COMMANDS[name].words, box.fresh(), COMMANDS[name].typed)
    for label, env in ENVIRONMENTS.items():
        for name in names:
            ended = run(box.program, COMMANDS[name].words, box.fresh(), COMMANDS[name].typed, env)
            found = list(clean(ended, (SUCCESS,)))
            if not ended.out.strip():
                found.append("no answer")
            bare = "LC_ALL" in env or "COLUMNS" in env
            if not bare and ended.out != usual[name].out:
                found.append("another answer")
            told(f"environment: {label}: {name}", found)


def check_no_record(box, told):
    """Without a state folder a drill of a trainee says that its record cannot be kept."""
    for label in KEEPS_A_RECORD:
        if os.geteuid() == 0 and label == "a HOME that is not there":
            continue  # who may make any folder may make that one too
        command = COMMANDS["drill-first"]
        ended = run(box.program, command.words, box.fresh(), command.typed, ENVIRONMENTS[label])
        told(f"environment: a record, {label}", list(clean(ended, (CANNOT_CREATE,))))


# --- terminals --------------------------------------------------------------------------------

SIZES = [(1, 1), (2, 5), (24, 10), (24, 39), (24, 80), (5, 65535), (65535, 65535), (0, 0)]


def at_terminal(box, words, folder, rows, columns, typed=b""):
    """The program at a pseudo-terminal of a size; all that it writes there."""
    near, far = pty.openpty()
    fcntl.ioctl(far, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
    os.write(near, typed)
    written = []

    def drain():
        while True:
            try:
                part = os.read(near, 65536)
            except OSError:  # the other end is closed
                return
            if not part:
                return
            written.append(part)
    reader = threading.Thread(target=drain)
    reader.start()
    env = surroundings(folder, {"COLUMNS": None, "TERM": "xterm"})
    ended = subprocess.run([str(box.program), *words], cwd=folder, env=env, stdin=far, stdout=far,
                           stderr=far, timeout=LONGEST, check=False)
    os.close(far)
    reader.join(LONGEST)
    os.close(near)
    return ended.returncode, b"".join(written).decode(errors="replace")


def check_terminals(box, names, told):
    for rows, columns in SIZES:
        for name in names:
            command = COMMANDS[name]
            exit_code, text = at_terminal(box, command.words, box.fresh(), rows, columns,
                                          command.typed.encode() + b"\x04")
            found = [] if exit_code == 0 else [f"exit code {exit_code}: {text[-200:]}"]
            if not text.strip():
                found.append("no answer")
            told(f"terminal: {columns} columns, {rows} rows: {name}", found)


# --- things that are no file, and files that are not as they seem ------------------------------

def make_odd_things(folder):
    """One of each thing that may stand where a file is expected; FIFOs have nobody at their end."""
    os.mkfifo(folder / "fifo")
    (folder / "loop").symlink_to("loop")
    (folder / "dangling").symlink_to("nowhere")
    (folder / "empty").touch()
    (folder / "folder").mkdir()
    (folder / "zeros").write_bytes(b"\0" * 4096)
    return ["loop", "dangling", "folder", "empty", "zeros", "/dev/null", "/dev/full", "/dev/zero",
            "kart.yaml/inside", "x" * 300, "/proc/self/mem"]


READERS = [
    ["advise", "--kart", "{}", "--track", "green"],
    ["advise", "--debrief", "{}"],
    ["advise", "--batch", "{}"],
    ["advise", "--rules", "{}", "--track", "green"],
    ["advise", "--log", "{}", *KART, "--track", "green"],
    ["weigh", "--kart", "{}", "--lf", "35kg", "--rf", "34kg", "--lr", "48kg", "--rr", "47kg",
     "--save"],
    ["apply", "--kart", "{}", *WIDER],
    ["apply", *KART, "--log", "{}", *WIDER],
    ["log", "add", "--log", "{}", *KART, "--laps", "31.5"],
    ["log", "add", *LOG, *KART, "--csv", "{}"],
    ["log", "import", "{}", *LOG],
    ["log", "export", "--log", "{}"],
    ["log", "verify", "--log", "{}"],
    ["compare", "--csv", "{}"],
    ["learned", "--log", "{}", *KART],
    ["drill", "--case", "{}"],
    ["rules", "check", "--rules", "{}"],
    ["rules", "diff", "built-in", "{}"],
]
# An empty kart file, table or log is one that says nothing; /dev/null is such a file.
SAYS_NOTHING = ("empty", "/dev/null")


def check_odd_things(box, told):
    for words in READERS:
        folder = box.fresh()
        things = make_odd_things(folder)
        before = what_stands_in(folder)
        for thing in things:
            if words[0] == "rules" and thing in ("empty", "folder"):
                continue  # a folder without a rule in it adds none
            if words[:2] == ["log", "add"] and thing in ("dangling", "empty"):
                continue  # a log is made there
            if words[0] == "apply" and "--log" in words and thing in ("dangling", "empty"):
                continue
            ended = run(box.program, [thing if word == "{}" else word for word in words], folder)
            quiet = (SUCCESS,) if thing in SAYS_NOTHING or "--rules" in words else ()
            if thing == "/proc/self/mem" and "--log" in words:
                quiet = (INPUT_OUTPUT,)  # a file by its kind, of which nothing can be read
            found = list(clean(ended, (BAD_DATA, NO_INPUT, CANNOT_CREATE, USAGE, *quiet)))
            told(f"no file: {' '.join(words).replace('{}', thing[:20])}", found)
        told(f"no file: {' '.join(words)}: nothing changes",
             [] if what_stands_in(folder) == before else ["changed"])


def check_pipes(box, told):
    """A named pipe is read as a file where a file is only read, and never waited for by a log."""
    folder = box.fresh()
    make_odd_things(folder)
    ended = shell(box, folder, "cat kart.yaml >fifo & k advise --kart fifo --track green")
    told("pipe: a kart", list(clean(ended, (SUCCESS,))))
    for words in (["log", "verify", "--log", "fifo"], ["apply", "--kart", "kart.yaml", "--log",
                                                       "fifo", *WIDER]):
        told(f"pipe: {' '.join(words)}", list(clean(run(box.program, words, folder), (BAD_DATA,))))


def check_vanishing(box, told):
    """A file that another changes meanwhile. That one goes away, calls.py tries with ENOENT."""
    folder = box.fresh()
    script = (f"k {ADVISE} & k {APPLY}; (k {APPLY.replace('1390', '1395')} --at 2024-11-16T10:00)"
              " ; wait")
    ended = shell(box, folder, script)
    told("vanishing: one reads while another changes", list(clean(ended, (SUCCESS,))))


# --- disks and rights --------------------------------------------------------------------------

def can_mount():
    probe = subprocess.run(["unshare", "-m", "true"], capture_output=True, check=False)
    return probe.returncode == 0


def mounted(box, folder, options, script):
    """A line of sh on a small disk of its own, which holds what the folder holds."""
    disk = Path(folder).parent / "disk"
    shutil.rmtree(disk, ignore_errors=True)
    disk.mkdir()
    line = (f"mount -t tmpfs -o {options} none {disk} && cp -r {folder}/. {disk}/ && cd {disk} && "
            f"({script}); code=$?; rm -f fill; cp -r {disk}/. {folder}/ && umount -l {disk}; "
            "exit $code")
    whole = dict(surroundings(folder, {"XDG_STATE_HOME": f"{disk}/state", "HOME": str(disk)}),
                 KARTWRIGHT=str(box.program), PATH="/usr/sbin:/usr/bin:/sbin:/bin")
    ended = subprocess.run(["unshare", "-m", "/bin/sh", "-c",
                            f'k() {{ "$KARTWRIGHT" "$@"; }}; {line}'],
                           env=whole, capture_output=True, timeout=LONGEST, check=False)
    return Ended(ended.returncode, ended.stdout.decode(errors="replace"),
                 ended.stderr.decode(errors="replace"))


WRITERS = ("weigh-save", "log-add", "log-add-first", "log-import", "apply", "apply-log",
           "apply-first-log", "apply-undo-log", "compare-save", "drill", "drill-first",
           "rules-witness")


def whole_witness(file, holds):
    """Of several cases that are written to a folder those that found room stay, each whole."""
    return file.startswith("shown/") and holds.endswith(b"\n")


def check_full_disk(box, told):
    if not can_mount():
        print("faults: full disk: left out, since nothing can be mounted here (root, unshare)")
        return
    for name in WRITERS:
        command = COMMANDS[name]
        for blocks in (0, 1, 2, 4):
            folder = box.prepared(command)
            (folder / "typed").write_text(command.typed)
            before = what_stands_in(folder)
            words = " ".join(f"'{word}'" for word in command.words)
            script = ("dd if=/dev/zero of=fill bs=4096 status=none 2>/dev/null; "
                      f"truncate -s -{blocks * 4096} fill; k {words} <typed")
            ended = mounted(box, folder, "size=512k", script)
            found = list(clean(ended, (SUCCESS, CANNOT_CREATE, INPUT_OUTPUT)))
            after = what_stands_in(folder)
            if ended.exit != SUCCESS:
                found += [f"changed: {file}" for file, holds in after.items()
                          if holds != before.get(file) and not is_empty_one(file, holds)
                          and not whole_witness(file, holds)]
            told(f"full disk, {blocks} blocks left: {name}", found)


def check_read_only(box, told):
    if not can_mount():
        print("faults: read-only disk: left out, since nothing can be mounted here")
        return
    for name in COMMANDS:
        command = COMMANDS[name]
        if command.terminal:
            continue
        folder = box.prepared(command)
        (folder / "typed").write_text(command.typed)
        words = " ".join(f"'{word}'" for word in command.words)
        ended = mounted(box, folder, "size=4m", f"mount -o remount,ro . && k {words} <typed; "
                        "code=$?; mount -o remount,rw . ; exit $code")
        allowed = (CANNOT_CREATE, INPUT_OUTPUT) if name in WRITERS else (SUCCESS,)
        if name in ("log-add-laps", "log-add-to", "apply-change", "apply-undo", "log-import-csv"):
            allowed = (CANNOT_CREATE,)
        if name == "log-import-again":
            allowed = (SUCCESS, CANNOT_CREATE)
        told(f"read-only disk: {name}", list(clean(ended, allowed)))


# --- limits -----------------------------------------------------------------------------------

def check_limits(box, told):
    for name in ("advise", "advise-log", "log-add", "apply-log", "drill", "rules-check"):
        command = COMMANDS[name]
        for limit in ("-f 0", "-f 1", "-f 4", "-n 3", "-n 4", "-n 5", "-n 6", "-n 8", "-v 20000",
                      "-v 30000", "-v 40000", "-s 64"):
            folder = box.prepared(command)
            (folder / "typed").write_text(command.typed)
            words = " ".join(f"'{word}'" for word in command.words)
            ended = shell(box, folder, f'exec <typed; ulimit {limit}; exec "$KARTWRIGHT" {words}')
            loader = re.search(r"error while loading shared libraries|cannot (fork|exec)|"
                               r"failed to map|Cannot allocate", ended.err)
            if loader and ended.exit in (126, 127):
                continue  # it was never begun
            found = list(clean(ended, (SUCCESS, NO_INPUT, CANNOT_CREATE, INPUT_OUTPUT)))
            if ended.exit != SUCCESS and not messages(ended):
                found.append(f"not a word: {ended.err.strip()}")
            told(f"limit: ulimit {limit}: {name}", found)


def check_surroundings(box, _library, names, told):
    known = [name for name in IN_EVERY if name in names]
    check_environments(box, known, told)
    check_no_record(box, told)
    check_terminals(box, known, told)
    check_odd_things(box, told)
    check_pipes(box, told)
    check_vanishing(box, told)
    check_limits(box, told)
    check_full_disk(box, told)
    check_read_only(box, told)
