# SPDX-License-Identifier: MIT
"""Compiles sources with all their faults and runs the tests that come by each."""
import concurrent.futures
import glob
import hashlib
import json
import os
import pickle
import re
import resource
import shlex
import shutil
import signal
import subprocess

from places import Places
from planting import Copy

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.dirname(os.path.dirname(HERE))
FAULTS_OF_A_SOURCE = 2000  # numbers set aside for each
AT_FIRST = 300  # milliseconds of tests that are run before all others
AT_LAST = 500  # milliseconds of tests of the same source that are run once more together


class Source:
    """A source and its faults, compiled together once; BUILD/mutants keeps that for the next time."""

    def __init__(self, build, path):
        self.path, self.name, self.words = path, os.path.relpath(path, ROOT), compile_words(build)
        self.first = FAULTS_OF_A_SOURCE * (sources_of_the_program().index(path) + 1)
        self.kept = os.path.join(build, "mutants", hash_of(path, self.words, self.first))
        if not os.path.exists(self.kept + ".faults"):
            os.makedirs(self.kept, exist_ok=True)
            self.faults = self.compiled()
            if self.faults:
                with open(self.kept + ".faults", "wb") as file:
                    pickle.dump(self.faults, file)
            return
        with open(self.kept + ".faults", "rb") as file:
            self.faults = pickle.load(file)

    @property
    def object(self):
        return self.kept + ".o"

    def compiled(self):
        """Makes the object file. A constexpr is a plain constant there, if the source compiles with that."""
        self.places = Places(self.path, ["clang++", *[w for w in self.words if w[:2] != "-f"], "-w", "-fsyntax-only", "-Xclang",
                                         "-ast-dump=json", "-Xclang", "-ast-dump-filter=driftwarden", self.path])
        how = ["-c", "-o", self.object]
        copy, done = self.compile(list(self.places.constants), how)
        if done.returncode != 0:
            copy, done = self.compile(self.movable_constants(), how)
        if done.returncode != 0:
            print(f"{self.name}: does not compile with its faults:\n{done.stderr.decode()[:4000]}", flush=True)
            return {}
        return copy.faults

    def movable_constants(self):
        kept = []
        for constant in self.places.constants:
            if self.compile(kept + [constant], ["-fsyntax-only"])[1].returncode == 0:
                kept.append(constant)
        return kept

    def compile(self, constants, how):
        copy = Copy(self.places, constants, self.first)
        path = os.path.join(self.kept, os.path.basename(self.path))
        with open(path, "wb") as file:
            file.write(copy.written())
        # A place behind a table is no result: the library's own checks end the run there.
        return copy, subprocess.run(["g++", *self.words, "-w", "-D_GLIBCXX_ASSERTIONS", "-include", os.path.join(HERE, "switches.hpp"), "-I",
                                     os.path.dirname(self.path), path, *how], stderr=subprocess.PIPE, check=False)

    def seen_before(self):
        if not os.path.exists(self.kept + ".seen"):
            return set()
        with open(self.kept + ".seen", encoding="utf-8") as file:
            return set(json.load(file))

    def keep_seen(self, numbers):
        with open(self.kept + ".seen", "w", encoding="utf-8") as file:
            json.dump(numbers, file)

    def own_suites(self):
        floor, room = self.name.split(os.sep)[-2:]
        test = os.path.join(ROOT, "tests", floor, os.path.splitext(room)[0] + "_test.cpp")
        if not os.path.exists(test):
            return set()
        with open(test, encoding="utf-8") as file:
            return set(re.findall(r"TEST(?:_F|_P)?\((\w+),", file.read()))


class Program:
    """A floor's test program in which sources with faults stand for their rooms."""

    def __init__(self, build, floor, objects, scratch, longest):
        self.longest = longest  # milliseconds; no test that takes longer is run
        self.scratch, self.path = scratch, os.path.join(scratch, floor + "_test")
        for target in (f"{floor}_test", "project_folder"):
            for folder, _, files in os.walk(os.path.join(build, "tests", "CMakeFiles", f"{target}.dir")):
                objects = objects + [os.path.join(folder, f) for f in files if f.endswith(".o")]
        linker = ["-fuse-ld=mold"] if shutil.which("mold") else []
        subprocess.run(["g++", *linker, "-o", self.path, *objects, "-Wl,--allow-multiple-definition",
                        "-Wl,--start-group", *glob.glob(os.path.join(build, "lib*.a")), "-Wl,--end-group", *libraries_of(build, floor)], check=True)
        self.tests, self.barren = {}, set()
        self.record()

    def record(self):
        """`tests`: name -> (milliseconds, numbers of the faults it comes by), from a run without any fault."""
        path, before = self.path + ".reached", set()
        if not self.passes(0, ["*"], 600, {"MUTANTS_REACHED": path}):
            raise SystemExit(f"{self.path} fails without any fault")
        with open(path, encoding="utf-8") as file:
            for line in file:
                name, milliseconds, *numbers = line.split()
                self.barren |= {int(n[:-2]) for n in numbers if n.endswith("=2")}
                found = {int(n.split("=")[0]) for n in numbers}
                if name == "*":
                    before = found
                elif found and int(milliseconds) <= self.longest:
                    self.tests[name] = (int(milliseconds), found)
        self.before = before

    def sees(self, number, source):
        """What is worked out before the first test counts as come by in every test that comes by the source."""
        of_source = [test for test, (_, found) in self.tests.items() if not found.isdisjoint(source.faults)]
        by = of_source if number in self.before else [test for test in of_source if number in self.tests[test][1]]
        own, spent, first, rest = source.own_suites(), 0, [], []
        for test in sorted(by, key=lambda test: (test.split(".")[0] not in own, self.tests[test][0], test)):
            (first if spent <= AT_FIRST else rest).append(test)
            spent += self.tests[test][0]
        # What is kept from one test to the next shows in the first of them only: so all together, if they are quick.
        together = of_source if by and self.time_of(of_source) <= AT_LAST else []
        return any(some and not self.passes(number, some, 10 * self.time_of(some) // 1000 + 2)
                   for some in (first, rest, together))

    def time_of(self, tests):
        return sum(self.tests[test][0] for test in tests)

    def passes(self, number, tests, seconds, more=None):
        environment = {**os.environ, "MUTANT": str(number), "TZ": "Asia/Kathmandu", **(more or {})}
        command = [self.path, f"--gtest_filter={':'.join(tests)}", "--gtest_brief=1", "--gtest_fail_fast"]
        run = subprocess.Popen(command, env=environment, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                               stderr=subprocess.DEVNULL, cwd=self.scratch, start_new_session=True,
                               preexec_fn=lambda: bounded(seconds))
        try:
            return run.wait(20 * seconds) == 0
        except subprocess.TimeoutExpired:
            os.killpg(run.pid, signal.SIGKILL)
            run.wait()
            return False


class Floor:
    """Sources of a floor, and the programs that test them."""

    def __init__(self, build, paths, floors, scratch):
        self.build, self.floors, self.scratch = build, floors, scratch
        with concurrent.futures.ThreadPoolExecutor(2) as pool:
            self.sources = list(pool.map(lambda path: Source(build, path), paths))

    def results(self, jobs, again, longest):
        """Each source with its faults and whether they were seen; what was seen before is believed, if `again` says so."""
        objects = [source.object for source in self.sources if source.faults] + [recorder(self.scratch)]
        programs = [Program(self.build, floor, objects, self.scratch, longest) for floor in self.floors]
        with concurrent.futures.ThreadPoolExecutor(jobs) as pool:
            for source in self.sources:
                numbers = [n for n in source.faults if not any(n in program.barren for program in programs)]
                before = source.seen_before() if again else set()
                seen = list(pool.map(lambda n, s=source, b=before: n in b or any(p.sees(n, s) for p in programs), numbers))
                source.keep_seen([n for n, was_seen in zip(numbers, seen) if was_seen])
                yield source, list(zip([source.faults[n] for n in numbers], seen))


def bounded(seconds):
    """A fault may go round in a circle, or ask for memory without end."""
    resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
    resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def recorder(scratch):
    path = os.path.join(scratch, "recorder.o")
    if not os.path.exists(path):
        subprocess.run(["g++", "-std=c++20", "-c", os.path.join(HERE, "recorder.cpp"), "-o", path], check=True)
    return path


def libraries_of(build, floor):
    """Of others, as the build links them with a floor's test program."""
    command = subprocess.run(["ninja", "-C", build, "-t", "commands", "-s", f"tests/{floor}_test"], stdout=subprocess.PIPE,
                             check=True).stdout.decode().splitlines()[-1]
    return [w for w in shlex.split(command) if w.startswith("-l") or re.search(r"^/.*\.(so|a)[.0-9]*$", w)]


def sources_of_the_program():
    return sorted(glob.glob(os.path.join(ROOT, "src", "*", "*.cpp")))


def hash_of(path, words, first):
    """Of all that an object file comes of."""
    whole = hashlib.sha256(repr((path, words, first)).encode())
    for part in [path, *sorted(headers_of(path, set())), os.path.join(HERE, "switches.hpp")]:
        with open(part, "rb") as file:
            whole.update(file.read())
    return whole.hexdigest()[:20]


def headers_of(path, found):
    """The project's own headers that a source includes, and those that they include."""
    with open(path, encoding="utf-8") as file:
        names = re.findall(r'^#include "(.+)"', file.read(), re.MULTILINE)
    for header in [os.path.join(ROOT, "src", name) for name in names]:
        if os.path.exists(header) and header not in found:
            found.add(header)
            headers_of(header, found)
    return found


def compile_words(build):
    """The compiler's words for a source of the program, as it would be compiled alone."""
    with open(os.path.join(build, "compile_commands.json"), encoding="utf-8") as file:
        for entry in json.load(file):
            if "driftwarden_engine.dir" in entry["command"]:
                words = shlex.split(entry["command"])
                return [w for w in words if w.startswith(("-I", "-D", "-f", "-std", "-O", "-isystem"))]
    raise SystemExit("no compile command found: configure BUILD first")
