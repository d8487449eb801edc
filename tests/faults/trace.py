"""Watches every command by the calls that it makes of the kernel: it opens no socket, starts no
program, writes only files that it is told of, and reads only those, its own and the system's."""

import re
import subprocess
from pathlib import Path

from box import LONGEST, keys, surroundings
from commands import COMMANDS

WATCHED = "trace=%network,%process,%file,%desc"
SOCKETS = {"socket", "socketpair", "connect", "bind", "listen", "accept", "accept4", "sendto",
           "recvfrom", "sendmsg", "recvmsg", "sendmmsg", "recvmmsg", "getsockopt", "setsockopt",
           "getsockname", "getpeername", "shutdown"}
STARTS = {"execve", "execveat", "fork", "vfork"}
WRITES = {"creat", "truncate", "rename", "renameat", "renameat2", "mkdir", "mkdirat", "unlink",
          "unlinkat", "rmdir", "link", "linkat", "symlink", "symlinkat", "chmod", "fchmodat",
          "chown", "lchown", "fchownat", "mknod", "mknodat", "utimensat", "setxattr"}
OPENS = {"open", "openat", "openat2"}

# What the system's own libraries read: themselves, the locale, the time zone, the kernel's tables.
SYSTEM = re.compile(
    r"/(usr/)?lib(64|32)?/|/etc/(ld\.so\.\w+|localtime|locale\.alias)|/usr/share/(locale|zoneinfo)"
    r"|/usr/lib/locale|/proc/(self|sys|cpuinfo|stat)|/sys/(devices/system/cpu|fs/cgroup)|/dev/(tty|"
    r"null|pts/|urandom)")
CALL = re.compile(r"^(?:\[pid +\d+\] |\d+ +)?(\w+)\((.*)$")
PATHS = re.compile(r'"((?:[^"\\]|\\.)*)"')


class Trace:
    """The calls of one run."""

    def __init__(self, lines, folder):
        self.calls = [(m[1], m[2]) for m in map(CALL.match, lines) if m]
        self.folder = Path(folder)

    def paths(self, arguments):
        return [str(self.folder / path) for path in PATHS.findall(arguments)]

    def sockets(self):
        return sorted({name for name, _ in self.calls if name in SOCKETS})

    def programs(self):
        """Programs and processes started, but for the program itself and its threads."""
        first, started = True, []
        for name, arguments in self.calls:
            thread = name in ("clone", "clone3") and "CLONE_THREAD" in arguments
            if name in STARTS and first:
                first = False
            elif name in STARTS or (name in ("clone", "clone3") and not thread):
                started.append(f"{name}({arguments[:60]}")
        return started

    def written(self):
        """Paths that are opened to write to, made, renamed or taken away."""
        found = set()
        for name, arguments in self.calls:
            to_write = name in OPENS and re.search(r"O_(WRONLY|RDWR|CREAT|TRUNC)", arguments)
            if to_write or name in WRITES:
                found.update(self.paths(arguments))
        return found

    def read(self):
        return {path for name, arguments in self.calls if name in OPENS
                and not arguments.endswith("ENOENT (No such file or directory)")
                for path in self.paths(arguments)}


def traced(argv, folder, typed="", terminal=False):
    """Runs a command under strace. None where tracing is not permitted here."""
    log = Path(folder).parent / f"trace-{Path(folder).name}"
    whole = ["strace", "-f", "-qq", "-s", "4096", "-e", WATCHED, "-o", str(log), *map(str, argv)]
    def started(**given):
        return subprocess.run(whole, cwd=folder, env=surroundings(folder), capture_output=True,
                              timeout=LONGEST, check=False, **given)
    try:
        if terminal:
            with keys(typed) as far:
                ended = started(stdin=far)
        else:
            ended = started(input=typed.encode())
    except FileNotFoundError:
        return None
    if b"ptrace" in ended.stderr or not log.exists():
        return None
    return ended.returncode, Trace(log.read_text(errors="replace").splitlines(), folder)


def named_in(words, folder, terminal):
    """The files and folders that a command line names, with what the files among them name."""
    named = {str(folder / word) for word in words if not word.startswith("-")}
    if "--trainee" in words or terminal:
        named.add(str(folder / "state"))
    if "heat.yaml" in words or "lines.jsonl" in words:
        named.add(str(folder / "kart.yaml"))
    return named


def may_write(path, named, folder):
    """What a command line names, and beside it the new text, the old one and SQLite's journal."""
    if f"{path}/".startswith(str(folder / "state") + "/"):
        return str(folder / "state") in named
    if f"{folder}/".startswith(path.rstrip("/") + "/"):
        return True  # a folder on the way, made where it is not there
    bare = re.sub(r"(\.before-[\w-]+)?(\.being-written)?$|-journal$", "", path, count=1)
    return bare in named or any(path.startswith(f"{name}/") for name in named)


def may_read(path, named, folder, program):
    if SYSTEM.match(path) or path == str(program) or may_write(path, named, folder):
        return True
    # A folder that is put on the disk after a file in it was renamed.
    return path.startswith(str(program.parent / "share/kartwright")) or path == str(folder)


def wrong(trace, words, folder, program, terminal=False):
    """What a run did that the program promises not to do."""
    named = named_in(words, folder, terminal)
    if trace.sockets():
        yield f"network: {', '.join(trace.sockets())}"
    if trace.programs():
        yield f"starts: {', '.join(trace.programs())}"
    for path in sorted(trace.written()):
        if not may_write(path, named, folder) and path not in ("/dev/null", "/dev/tty"):
            yield f"writes: {path}"
    for path in sorted(trace.read()):
        if not may_read(path, named, folder, program):
            yield f"reads: {path}"


# Commands that do what must not be done, and what is to be said of them.
CAUGHT = {
    "a socket": ("import socket; socket.socket()", "socket"),
    "a datagram": ("import socket; s = socket.socket(socket.AF_INET, socket.SOCK_DGRAM); "
                   "s.sendto(b'x', ('127.0.0.1', 9))", "sendto"),
    "a program": ("import subprocess; subprocess.run(['/bin/true'])", "starts: "),
    "a file elsewhere": ("open('elsewhere.txt', 'w')", "writes: "),
    "another file read": ("open('laps.csv')", "reads: "),
}


def check_teeth(box, told):
    """What the checks look for must be found where it is."""
    for name, (script, expected) in CAUGHT.items():
        folder = box.fresh("teeth")
        _, trace = traced(["/usr/bin/python3", "-S", "-c", script], folder)
        found = list(wrong(trace, [], folder, box.program))
        caught = any(expected in each for each in found)
        told(f"trace: {name} is seen", [] if caught else [f"not seen: {found}"])


def check_trace(box, _library, names, told):
    if traced(["/bin/true"], box.fresh("probe")) is None:
        print("faults: trace: left out, since no program can be traced here (strace, ptrace)")
        told("trace", [])
        return
    check_teeth(box, told)
    for name in names:
        command = COMMANDS[name]
        folder = box.prepared(command, name)
        exit_code, trace = traced([box.program, *command.words], folder, command.typed,
                                  command.terminal)
        found = list(wrong(trace, command.words, folder, box.program, command.terminal))
        told(f"trace: {name}", found + ([f"exit code {exit_code}"] if exit_code else []))
