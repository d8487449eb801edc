"""Builds a copy of the project in which every mutant of the rooms can be switched on."""

import hashlib
import os
import pickle
import re
import shutil
import subprocess

from code_sites import Finder, Source, cindex, written

ROOMS = ("inference", "decision", "records", "chassis", "algebra")
SUITES = ("unit", "published", "property", "scenario")
FLAGS = "-O0 -g0 -w -D_GLIBCXX_ASSERTIONS"
ALSO = """
target_compile_options(kartwright_engine
  PRIVATE -include "${PROJECT_SOURCE_DIR}/tests/mutants/mutant.h")
foreach(suite %s)
  target_sources(${suite}_tests PRIVATE tests/mutants/listener.cc)
endforeach()
"""
ROUNDS = 12


class Failed(Exception):
    pass


class Copy:
    """The copy at build-mutants/tree and its build; `root` is the project, `suites` are asked."""

    def __init__(self, root, suites=SUITES):
        self.root = root
        self.suites = suites
        self.folder = root / "build-mutants"
        self.tree = self.folder / "tree"
        self.build = self.folder / "code"
        self.folder.mkdir(exist_ok=True)

    def suite(self, name):
        return self.build / "tests" / f"{name}_tests"

    def put(self, name, content):
        """Writes a file of the copy, unless it is there already."""
        file = self.tree / name
        if file.exists() and file.read_bytes() == content:
            return
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content)

    def take_over(self, rewritten):
        """Brings the copy to what the project is, but for the files that are rewritten."""
        listed = subprocess.run(["git", "ls-files", "-z", "-co", "--exclude-standard"],
                                cwd=self.root, check=True, capture_output=True).stdout.decode()
        names = {name for name in listed.split("\0")
                 if name and (self.root / name).is_file() and is_asked(name)}
        for name in sorted(names - set(rewritten)):
            content = (self.root / name).read_bytes()
            if name == "CMakeLists.txt":
                content = content.replace(b'SOURCE_DIR=\\"${PROJECT_SOURCE_DIR}\\"',
                                          f'SOURCE_DIR=\\"{self.root}\\"'.encode())
                content += (ALSO % " ".join(SUITES)).encode()
            self.put(name, content)
            shutil.copymode(self.root / name, self.tree / name)
        for file in self.tree.rglob("*"):
            if file.is_file() and str(file.relative_to(self.tree)) not in names:
                file.unlink()


def is_asked(name):
    """Of the unit tests only those of the rooms are; what the other suites notice counts."""
    unit = re.match("tests/unit/(.*)/", name)
    return not name.startswith("tests/unit/") or (unit is not None and unit.group(1) in ROOMS)


def files_of(root):
    return [f"engine/{room}/{file.name}" for room in ROOMS
            for file in sorted((root / "engine" / room).glob("*"))
            if file.suffix == ".cc"]


def parse(copy, root, names, also=()):
    """Translation units of up to sixteen sources of a room each, as the build joins them. Headers
    of libraries are read once for all; templates are not filled in where that can be put off."""
    index = cindex.Index.create()
    arguments = ["-std=c++20", "-isystem", "/usr/include/eigen3", "-ferror-limit=0",
                 "-Wno-everything", "-DBOOST_ALL_NO_LIB", "-DFMT_SHARED"]
    incomplete = cindex.TranslationUnit.PARSE_INCOMPLETE
    lines = {line for name in names for line in (root / name).read_text().splitlines()
             if re.match("#include <", line)}
    headers, ready = copy.folder / "libraries.h", copy.folder / "libraries.pch"
    text = "\n".join(sorted(lines)) + "\n"
    if not ready.exists() or headers.read_text() != text:
        headers.write_text(text)
        index.parse(str(headers), ["-x", "c++-header", *arguments]).save(str(ready))
    arguments += ["-include-pch", str(ready), f"-I{root}", *also]
    for room in ROOMS:
        sources = [n for n in names if n.startswith(f"engine/{room}/") and n.endswith(".cc")]
        for first in range(0, len(sources), 16):
            text = "".join(f'#include "{root}/{name}"\n' for name in sources[first:first + 16])
            joined = str(root / f"joined_{room}_{first}.cc")
            yield index.parse(joined, arguments, unsaved_files=[(joined, text)],
                              options=incomplete)


def find_sites(copy, names):
    root = copy.root
    finders = {name: Finder(Source(root, name)) for name in names}
    for unit in parse(copy, root, names):
        for cursor in unit.cursor.get_children():
            place = cursor.location.file
            name = os.path.relpath(place.name, root) if place is not None else ""
            if name in finders:
                finders[name].declared(cursor)
    sites = [site for finder in finders.values() for site in finder.sites.values()]
    sites.sort(key=lambda site: (site.file, site.start, -site.end, site.what))
    at = 1
    for site in sites:
        site.number = at
        at += len(site.becomes)
    return sites


class Rewriting:
    """The rewritten files and which sites of them a compiler refuses."""

    def __init__(self, copy, names, sites, dropped):
        self.copy, self.names, self.sites, self.dropped = copy, names, sites, dropped
        self.sources = {name: Source(copy.root, name) for name in names}

    def kept(self):
        return [site for site in self.sites if site.key() not in self.dropped]

    def write(self):
        self.spans, self.texts = {}, {}
        for name, source in self.sources.items():
            mine = [site for site in self.kept() if site.file == name]
            self.texts[name], spans = written(source, mine)
            self.spans[name] = [(spans[site.number], site) for site in mine]
            self.copy.put(name, self.texts[name])

    def drop_at(self, name, line, column):
        """Drops the innermost site at a place of a rewritten file; says whether there is one."""
        text = self.texts.get(name)
        if text is None:
            return False
        offset = sum(len(one) for one in text.splitlines(keepends=True)[:line - 1]) + column - 1
        around = [(end - start, site.key(), site) for (start, end), site in self.spans[name]
                  if start <= offset < end]
        if not around:
            return False
        self.dropped.add(min(around)[1])
        return True

    def settle(self):
        """Leaves out what does not compile, by libclang, which is quicker than the build."""
        for _ in range(ROUNDS):
            self.write()
            before = len(self.dropped)
            for unit in parse(self.copy, self.copy.tree, self.names,
                              ["-include", "tests/mutants/mutant.h"]):
                for found in unit.diagnostics:
                    if found.severity >= cindex.Diagnostic.Error:
                        self.drop_for(found)
            if len(self.dropped) == before:
                return

    def drop_for(self, found):
        places = [found.location, *(child.location for child in found.children)]
        any(place.file is not None and self.drop_at(
            os.path.relpath(place.file.name, self.copy.tree), place.line, place.column)
            for place in places)

    def make(self, jobs):
        """Builds the copy; what only the build's compiler refuses is left out too."""
        environment = dict(os.environ, CCACHE_BASEDIR=str(self.copy.tree), CCACHE_NOHASHDIR="1")
        setup = ["cmake", "-S", self.copy.tree, "-B", self.copy.build, "-DKARTWRIGHT_TESTS=ON",
                 "-DCMAKE_BUILD_TYPE=None", f"-DCMAKE_CXX_FLAGS={FLAGS}",
                 "-DCMAKE_UNITY_BUILD=ON", "-DCMAKE_UNITY_BUILD_BATCH_SIZE=16",
                 "-DCMAKE_DISABLE_PRECOMPILE_HEADERS=ON"]
        if shutil.which("ninja"):
            setup += ["-G", "Ninja"]
        self.write()
        self.run(setup, environment)
        targets = [f"{suite}_tests" for suite in self.copy.suites]
        for _ in range(ROUNDS):
            made = subprocess.run(
                ["cmake", "--build", self.copy.build, "--parallel", str(jobs), "--target",
                 *targets],
                env=environment, capture_output=True, text=True, check=False)
            (self.copy.folder / "code-build.log").write_text(made.stdout + made.stderr)
            if made.returncode == 0:
                return
            before = len(self.dropped)
            for file, line, column in re.findall(r"(\S+):(\d+):(\d+): (?:error|note)", made.stdout):
                name = os.path.relpath(os.path.realpath(file), self.copy.tree)
                self.drop_at(name, int(line), int(column))
            if len(self.dropped) == before:
                break
            self.write()
        raise Failed(f"the copy is not built, see {self.copy.folder / 'code-build.log'}")

    def run(self, command, environment):
        done = subprocess.run(command, env=environment, capture_output=True, text=True, check=False)
        if done.returncode != 0:
            raise Failed(done.stdout + done.stderr)


def mark_of(copy, names):
    """Changes where sites may."""
    here = copy.root / "tests" / "mutants"
    mark = hashlib.sha256()
    for file in [*(copy.root / name for name in names), here / "code_sites.py", here / "mutant.h"]:
        mark.update(str(file).encode() + file.read_bytes())
    return mark.hexdigest()


def built(copy, jobs):
    """The sites of the copy, built, and how many do not compile; what was found before is used
    again where nothing changed."""
    names = files_of(copy.root)
    note = copy.folder / "code-sites.pickle"
    mark = mark_of(copy, names)
    known = pickle.loads(note.read_bytes()) if note.exists() else {}
    fresh = known.get("mark") != mark
    copy.take_over(names)
    sites = find_sites(copy, names) if fresh else known["sites"]
    rewriting = Rewriting(copy, names, sites, set() if fresh else known["dropped"])
    if fresh:
        rewriting.settle()

    def keep():
        note.write_bytes(pickle.dumps({"mark": mark, "sites": sites,
                                       "dropped": rewriting.dropped}))

    keep()
    rewriting.make(jobs)
    keep()
    return rewriting.kept(), len(rewriting.dropped)
