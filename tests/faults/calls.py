"""Lets every file operation of every command fail in turn, and says what must not come of it."""

import errno
import re
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

from box import run, what_stands_in
from commands import COMMANDS, SHORT

# What each kind of call may fail with. EINTR is for calls that may wait.
DISK = (errno.ENOSPC, errno.EIO, errno.EDQUOT)
ERRORS = {
    "open": (errno.EACCES, errno.EIO, errno.EMFILE, errno.ENOENT),
    "open-to-write": (errno.EACCES, errno.ENOSPC, errno.EROFS, errno.EMFILE, errno.EDQUOT),
    "read": (errno.EIO, errno.EINTR, "short"),
    "write": (*DISK, errno.EINTR, "short"),
    "close": (errno.EIO, errno.EINTR),
    "fsync": (errno.EIO, errno.ENOSPC),
    "ftruncate": (errno.EIO,),
    "fchmod": (errno.EPERM,),
    "lock": (errno.EACCES, errno.EIO, errno.EINTR, errno.ENOLCK),
    "stat": (errno.EACCES, errno.EIO, errno.ENOENT),
    "rename": (errno.EACCES, errno.ENOSPC, errno.EIO),
    "mkdir": (errno.EACCES, errno.ENOSPC),
    "unlink": (errno.EACCES, errno.EIO),
    "access": (errno.EACCES,),
    "realpath": (errno.EACCES, errno.EIO),
    "opendir": (errno.EACCES, errno.EMFILE),
    "readdir": (errno.EIO,),
    "mkstemp": (errno.EACCES, errno.ENOSPC, errno.EMFILE),
    "mmap": (errno.ENOMEM,),
    "dup": (errno.EMFILE,),
}
DENIED = (errno.EACCES, errno.EIO)
WARNS = (": warning[", "cannot be kept", "What was answered stays")

# Those that go on failing, as a disk does that stays full or broken.
FOR_GOOD = {"write": (errno.ENOSPC, errno.EIO), "fsync": (errno.EIO,), "read": (errno.EIO,),
            "open-to-write": (errno.ENOSPC,), "lock": (errno.EACCES,)}

BAD_DATA = 65
REFUSALS = (74, 73, 66)
NOT_FOR_A_CREW = re.compile(
    r"basic_ios|iostream error|fault of the program|terminate|std::|errno|Success\b|Sanitizer")


@dataclass
class Fault:
    """The N-th call of a command fails."""
    number: int
    kind: str
    path: str
    error: object           # an errno, or "short"
    for_good: bool = False

    def __str__(self):
        name = self.error if self.error == "short" else errno.errorcode[self.error]
        return f"{self.kind} {self.path} ({self.number}) {name}{' for good' * self.for_good}"

    def surroundings(self, library):
        env = {"LD_PRELOAD": str(library), "FAULT_AT": str(self.number),
               "FAULT_WITH": str(self.error)}
        return dict(env, FAULT_ON="1") if self.for_good else env


@dataclass
class Clean:
    """What comes of a command when nothing fails, and the calls that it takes."""
    before: dict
    after: dict
    ended: object
    calls: list


def clean_run(box, library, command, name):
    folder = box.prepared(command, name)
    before = what_stands_in(folder)
    told = box.top / f"told-{name}"
    told.unlink(missing_ok=True)
    ended = run(box.program, command.words, folder, command.typed, terminal=command.terminal,
                env={"LD_PRELOAD": str(library), "FAULT_TOLD": str(told)})
    plain = [line.replace(f"{folder}/", "").split(" ", 1) for line in told.read_text().splitlines()]
    after = what_stands_in(folder)
    unwatched = run(box.program, command.words, box.prepared(command, name), command.typed,
                    terminal=command.terminal)
    if ended.exit != 0 or unwatched != ended:
        raise SystemExit(f"{name}: not as without the library, or refused: {ended.err}")
    return Clean(before, after, ended, plain)


def faults_in(calls):
    """Every call fails: the first three of a kind on a file in every way, others in one each."""
    met = Counter()
    for number, (kind, path) in enumerate(calls, 1):
        met[kind, path] += 1
        if ".before-" in path and kind == "stat":
            # One that has gone is no fault: the one before it is then the newest.
            yield from (Fault(number, kind, path, error) for error in DENIED)
            continue
        ways = [Fault(number, kind, path, error) for error in ERRORS[kind]]
        ways += [Fault(number, kind, path, error, True) for error in FOR_GOOD.get(kind, ())]
        turn = met[kind, path]
        yield from ways if turn <= 3 else [ways[turn % len(ways)]]


def messages_in(err, usual):
    """The messages of stderr that do not stand there anyway; notes and warnings apart."""
    lines = [line for line in err.splitlines() if line not in usual.splitlines()]
    told = [line for line in lines if line.startswith("kartwright: ") or ": error[" in line]
    return told, [line for line in lines if any(word in line for word in WARNS)]


def names_it(message, fault, known):
    """Whether a message names what failed, as a crew knows it."""
    if fault.path == "<out>" or fault.for_good and "the answer" in message:
        return "the answer" in message
    if fault.path == "<in>":
        return "standard input" in message
    if fault.path.startswith("/"):  # a folder on the way: the file that it is about is named
        return fault.path in message or any(name.rsplit("/", 1)[-1] in message for name in known)
    if fault.for_good and any(name.rsplit("/", 1)[-1] in message for name in known):
        return True  # it may be another file at which it is noticed
    stem = re.sub(r"-(journal|wal)$|(\.before-[\w-]+)?(\.being-written)?$", "", fault.path, count=1)
    return any(part and part in message for part in {stem, stem.rsplit("/", 1)[-1]})


def is_debrief(name):
    """What was answered is kept until the answer is out."""
    return bool(re.fullmatch(r"state/kartwright/asking-\w+\.yaml", name))


def is_old_one(name, holds, clean):
    """One more old text, where it could not be seen that the newest holds the same."""
    return ".before-" in name and holds == clean.before.get("kart.yaml")


def is_empty_one(name, holds):
    """A log or a record that nothing came into may stay: another process may have it open."""
    log = name == "new.db" and holds is not None and "INSERT INTO" not in holds
    return log or name.startswith("state/kartwright/drill-") and holds == b""


def is_one_of_many(name, holds, clean):
    """A case that was written before the one that failed stays, and is whole."""
    return name.startswith("shown/") and without_schema(holds) == without_schema(clean.after[name])


def wrong_in_refusal(fault, clean, ended, files):
    """A command that says it could not do its work."""
    told, _ = messages_in(ended.err, clean.ended.err)
    told = told or messages_in(ended.out, clean.ended.out)[0]  # what a check finds is its answer
    # SQLite takes a page that its disk cannot read for damage, and so it is told.
    damage = fault.kind == "read" and "error[N003]" in ended.err
    if ended.exit == BAD_DATA and "\"errors\":[" in ended.out and fault.path in ended.out:
        return  # a line of a batch, which has its errors in its answer
    if fault.kind == "stat" and fault.error == errno.ENOENT and ended.exit == BAD_DATA:
        return  # what stands behind --kart is taken for a name where no such file is there
    if ended.exit != BAD_DATA if damage else ended.exit not in REFUSALS:
        yield f"exit code {ended.exit}: {ended.err.strip()}"
    if len(told) != 1 and not (fault.for_good and told):
        yield f"{len(told)} messages: {ended.err.strip()!r}"
    elif not any(names_it(each, fault, {**clean.before, **clean.after}) for each in told):
        yield f"the message names no file: {told[0]}"
    if "what it tells of is done" in ended.err and files != clean.after:
        yield "said to be done, and is not"
    changed = [name for name in files if files[name] != clean.before.get(name)
               and not is_debrief(name) and not is_empty_one(name, files[name])
               and not is_one_of_many(name, files[name], clean)]
    if fault.path != "<out>" and not fault.for_good and changed:
        yield f"exit code {ended.exit}, but changed: {', '.join(changed)}"


def without_numbers(answer):
    """An answer but for the number of an old text, and the schema's line, which may be missing."""
    answer = re.sub(r"^# yaml-language-server.*\n", "", answer)
    return re.sub(r"(\.before-\w+)-\d+", r"\1", "".join(answer.split()))


def without_schema(holds):
    """A file but for the line that names its schema, which may be missing."""
    schema = rb"^# yaml-language-server.*\n"
    return re.sub(schema, b"", holds) if isinstance(holds, bytes) else holds


def wrong_in_success(fault, clean, ended, files):
    """A command that says nothing went wrong, or only warns."""
    _, warned = messages_in(ended.err, clean.ended.err)
    if warned:
        return
    if fault.kind == "stat" and fault.error == errno.ENOENT and files == clean.before:
        return  # a file that is gone is answered as one that was never there
    if "that cannot be read" in ended.out and "cannot be read" not in clean.ended.out:
        return  # a scenario of many, which is named in the answer
    if without_numbers(ended.out) != without_numbers(clean.ended.out):
        yield "exit code 0 and another answer"
    odd = [name for name in {**files, **clean.after}
           if without_schema(files.get(name)) != without_schema(clean.after.get(name))
           and not is_old_one(name, files.get(name), clean)]
    if odd:
        yield f"exit code 0, but not as it should be: {', '.join(odd)}"


def wrong(fault, clean, ended, files):
    """What must not come of a fault, in words."""
    if ended.exit < 0 or ended.exit > 127:
        yield f"ended by signal: {ended.exit}: {ended.err.strip()}"
        return
    if NOT_FOR_A_CREW.search(ended.err):
        yield f"words of the machine: {ended.err.strip()}"
    for name, holds in files.items():
        if is_old_one(name, holds, clean):
            continue
        stays = is_debrief(name) and (ended.exit != 0 or WARNS[-1] in ended.err)
        if stays or is_empty_one(name, holds):
            continue
        if name not in clean.before and name not in clean.after:
            yield f"left behind: {name}"
        elif holds not in (clean.before.get(name), clean.after.get(name)) and \
                without_schema(holds) != without_schema(clean.after.get(name)):
            yield f"half-written: {name}"
    for name in clean.before:
        if name not in files and not is_old_one(name, clean.before[name], clean):
            yield f"gone: {name}"
    yield from (wrong_in_success(fault, clean, ended, files) if ended.exit == 0
                else wrong_in_refusal(fault, clean, ended, files))


def check_command(box, library, name):
    """Each fault of a command with what is wrong about what came of it."""
    command = COMMANDS[name]
    clean = clean_run(box, library, command, name)
    for fault in faults_in(clean.calls):
        folder = box.prepared(command, name)
        ended = run(box.program, command.words, folder, command.typed,
                    env=fault.surroundings(library), terminal=command.terminal)
        yield fault, list(wrong(fault, clean, ended, what_stands_in(folder)))


def check_calls(box, library, names, told):
    """Tells `told` of every fault: (subject, what is wrong)."""
    def all_of(name):
        return [(f"{name}: {fault}", found) for fault, found in check_command(box, library, name)]
    with ThreadPoolExecutor(2) as pool:
        for name, results in zip(names, pool.map(all_of, names)):
            for subject, found in results:
                told(subject, found)
            print(f"faults: calls: {name}: {len(results)}", flush=True)


def names_of(short, wanted):
    chosen = SHORT if short else COMMANDS
    return [name for name in chosen if not wanted or name.startswith(tuple(wanted))]
