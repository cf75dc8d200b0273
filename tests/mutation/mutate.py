# SPDX-License-Identifier: MIT
"""Which faults in a source would the unit tests see?

    mutate.py BUILD SOURCE... [--floors statistics,assessment] [--list]

Plants one small fault after another in a source (a limit taken one step too far, a plus for a minus, a figure a little
off, a condition turned round, a call left out) and runs the unit tests of its floor, and of the floors named. All faults
of a source are compiled at once, each behind a switch, so that a fault costs a run of the tests and no compilation.
BUILD is a build folder of the preset dev or one like it (unoptimised, with the tests built). Where to plant is read from
clang's syntax tree (Debian: clang). Faults that survive are printed with their place; those that change nothing that
anybody could see are listed in equivalent.txt beside this script, each with why, and don't count.
"""
import argparse
import json
import os
import re
import shlex
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.dirname(os.path.dirname(HERE))
SECONDS = 120  # a run that takes longer goes round in a circle

SWITCHES = r"""
#include <cstdlib>
#include <type_traits>
#include <utility>
namespace mutation {
inline const int planted = std::getenv("MUTANT") != nullptr ? std::atoi(std::getenv("MUTANT")) : 0;
template <class T> constexpr bool turned(int n, T&& holds) { return static_cast<bool>(holds) != (n == planted); }
template <class T> auto off(int n, T figure) {
  if constexpr (std::is_floating_point_v<T>) return n == planted ? figure * T(1.03125) + (figure == T(0) ? T(0.03125) : T(0)) : figure;
  else return n == planted ? static_cast<T>(figure + 1) : figure;
}
#define DRIFT_BINARY(name, sign, other)                                                          \
  template <class A, class B> decltype(auto) name(int n, A&& a, B&& b) {                         \
    using R = decltype(std::forward<A>(a) sign std::forward<B>(b));                              \
    if constexpr (requires { static_cast<R>(std::forward<A>(a) other std::forward<B>(b)); }) {   \
      if (n == planted) return static_cast<R>(std::forward<A>(a) other std::forward<B>(b));      \
    }                                                                                            \
    return static_cast<R>(std::forward<A>(a) sign std::forward<B>(b));                           \
  }
"""
# The sign that stands in a source, what it is called here, and what is put in its place.
BINARY = {"<": ("lt", "<="), "<=": ("le", "<"), ">": ("gt", ">="), ">=": ("ge", ">"), "==": ("eq", "!="),
          "!=": ("ne", "=="), "+": ("plus", "-"), "-": ("minus", "+"), "*": ("times", "/"), "/": ("over", "*")}
LOGICAL = {"&&": "||", "||": "&&"}


class Tree:
    """The places of a source where a fault may be planted, from clang's syntax tree."""

    def __init__(self, source, command):
        self.source = source
        with open(source, "rb") as file:
            self.text = file.read()
        self.file = None
        self.found = {}  # (begin, end, kind) -> what
        dump = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, check=False).stdout.decode()
        decoder, at = json.JSONDecoder(), 0
        while (start := dump.find("{", at)) >= 0:
            node, at = decoder.raw_decode(dump, start)
            self.walk(node, None, False)

    def place(self, location):
        if "file" in location:
            self.file = location["file"]
        for inner in ("spellingLoc", "expansionLoc"):
            if inner in location:
                self.place(location[inner])
                return None  # in a macro
        return location.get("offset"), location.get("tokLen", 0)

    def walk(self, node, parent, fixed):
        if not isinstance(node, dict) or "kind" not in node:
            return
        self.place(node.get("loc", {}))
        span = node.get("range", {})
        begin, end = self.place(span.get("begin", {})), self.place(span.get("end", {}))
        here = self.file is not None and os.path.samefile(self.file, self.source) if self.file and os.path.exists(self.file) else False
        fixed = fixed or node.get("constexpr", False) or node["kind"] in (
            "StaticAssertDecl", "CaseStmt", "EnumConstantDecl", "TemplateArgument", "ConstantExpr", "CXXDefaultArgExpr") or (
            node["kind"] == "VarDecl" and "constexpr" in node)
        if here and begin and end and begin[0] is not None and end[0] is not None and not fixed:
            self.note(node, parent, begin[0], end[0] + end[1])
        for child in node.get("inner", []):
            self.walk(child, node, fixed)

    def note(self, node, parent, begin, end):
        kind, opcode = node["kind"], node.get("opcode")
        inner = [c for c in node.get("inner", []) if isinstance(c, dict) and "kind" in c]
        text = self.text[begin:end].decode(errors="replace")
        if kind in ("BinaryOperator", "CXXOperatorCallExpr") or kind == "CXXRewrittenBinaryOperator":
            self.note_binary(node, opcode, inner, begin, end)
        elif kind in ("IntegerLiteral", "FloatingLiteral"):
            if re.fullmatch(r"[0-9.][0-9a-fA-FxX.'eE+-]*[uUlLfF]*", text) and not text.startswith("0x"):
                self.found.setdefault((begin, end), ("literal", text))
        elif kind in ("IfStmt", "WhileStmt", "ConditionalOperator") and inner:
            condition = inner[0]
            if kind == "IfStmt" and (node.get("hasVar") or node.get("hasInit")):
                return
            span = condition.get("range", {})
            b, e = span.get("begin", {}), span.get("end", {})
            if "offset" in b and "offset" in e and condition["kind"] != "DeclStmt":
                self.found.setdefault((b["offset"], e["offset"] + e.get("tokLen", 0), "turned"), ("turned", ""))
        elif parent is not None and parent["kind"] in ("CompoundStmt", "IfStmt", "ForStmt", "CXXForRangeStmt") and kind in (
                "CallExpr", "CXXMemberCallExpr", "ExprWithCleanups", "CompoundAssignOperator") and not (
                parent["kind"] == "IfStmt" and inner and parent["inner"][0] is node) and parent["kind"] not in (
                "ForStmt", "CXXForRangeStmt"):
            if node.get("type", {}).get("qualType", "").strip() in ("void", "double", "std::size_t", "int", "unsigned long"):
                self.found.setdefault((begin, end, "left out"), ("left out", ""))

    def note_binary(self, node, opcode, inner, begin, end):
        if node["kind"] == "BinaryOperator" and len(inner) == 2:
            left, right = inner
        elif node["kind"] == "CXXOperatorCallExpr" and len(inner) == 3:
            left, right = inner[1], inner[2]
        else:
            return
        l, r = left.get("range", {}), right.get("range", {})
        if "offset" not in l.get("end", {}) or "offset" not in r.get("begin", {}):
            return
        left_end = l["end"]["offset"] + l["end"].get("tokLen", 0)
        right_begin = r["begin"]["offset"]
        between = self.text[left_end:right_begin].decode(errors="replace").strip()
        if l.get("begin", {}).get("offset") != begin or not begin < left_end <= right_begin < end:
            return
        is_text = any(word in node.get("type", {}).get("qualType", "") for word in ("string", "path", "*"))
        if is_text and between in "+-*/":
            return  # a text has no minus
        if between in BINARY or between in LOGICAL:
            self.found.setdefault((begin, end, "binary"), ("binary", (between, left_end, right_begin)))


def planted(tree):
    """The source with every fault behind its switch, and what the faults are: number -> (line, column, words)."""
    faults, marks = {}, []
    for key, (kind, what) in sorted(tree.found.items(), key=lambda item: (item[0][0], -item[0][1])):
        number = len(faults) + 1
        begin, end = key[0], key[1]
        line = tree.text.count(b"\n", 0, begin) + 1
        column = begin - tree.text.rfind(b"\n", 0, begin)
        shown = " ".join(tree.text[begin:end].decode(errors="replace").split())[:70]
        if kind == "binary":
            sign, left_end, right_begin = what
            if sign in LOGICAL:
                words = f"{sign} -> {LOGICAL[sign]}: {shown}"
                # a && b is !(!a || !b): with the switch on, neither side is turned round
                marks += [(begin, 1, end, f"mutation::{'both' if sign == '&&' else 'either'}({number}, [&]() -> bool {{ return static_cast<bool>(" ),
                          (left_end, 3, begin, "); }, [&]() -> bool { return static_cast<bool>("), (end, 0, begin, "); })")]
                marks.append((left_end, 2, right_begin, None))
            else:
                name, other = BINARY[sign]
                words = f"{sign} -> {other}: {shown}"
                marks += [(begin, 1, end, f"mutation::{name}({number}, "), (left_end, 3, begin, ", "), (end, 0, begin, ")")]
                marks.append((left_end, 2, right_begin, None))
        elif kind == "literal":
            words = f"figure off: {shown}"
            marks += [(begin, 1, end, f"mutation::off({number}, "), (end, 0, begin, ")")]
        elif kind == "turned":
            words = f"turned round: {shown}"
            marks += [(begin, 1, end, f"mutation::turned({number}, "), (end, 0, begin, ")")]
        else:
            words = f"left out: {shown}"
            marks += [(begin, 1, end, f"if (mutation::planted != {number}) "), (end, 0, begin, "")]
        faults[number] = (line, column, words)
    return rewritten(tree.text, marks), faults


def rewritten(text, marks):
    """Puts the marks in: closing ones before opening ones at one place, the outer ones opening first."""
    out, at = [], 0
    skips = sorted((m[0], m[2]) for m in marks if m[3] is None)
    # Of two faults over the same words the one that opens first closes last.
    numbered = [(m, n if m[1] != 0 else -n) for n, m in enumerate(marks) if m[3] is not None]
    order = {0: 0, 3: 1, 1: 2}
    puts = [m for m, n in sorted(numbered, key=lambda p: (p[0][0], order[p[0][1]], -p[0][2], p[1]))]
    events = [(p[0], 0, i, p[3]) for i, p in enumerate(puts)] + [(b, 1, 0, e) for b, e in skips]
    for where, what, _, value in sorted(events, key=lambda e: (e[0], e[1], e[2])):
        if where > at:
            out.append(text[at:where])
            at = where
        if what == 0:
            out.append(value.encode())
        else:
            at = max(at, value)
    out.append(text[at:])
    return b"".join(out)


def prelude():
    text = SWITCHES
    for sign, (name, other) in BINARY.items():
        text += f"DRIFT_BINARY({name}, {sign}, {other})\n"
    text += ("template <class A, class B> bool both(int n, A a, B b) { return n == planted ? a() || b() : a() && b(); }\n"
             "template <class A, class B> bool either(int n, A a, B b) { return n == planted ? a() && b() : a() || b(); }\n"
             "}\n#line 1\n")
    return text.encode()


def equivalents():
    known = {}
    with open(os.path.join(HERE, "equivalent.txt"), encoding="utf-8") as file:
        for line in file:
            if line.strip() and not line.startswith("#"):
                place, _, why = line.rstrip("\n").partition(" | ")
                known[place] = why
    return known


def compile_words(build, source):
    """The compiler's words for a source, as it would be compiled alone."""
    with open(os.path.join(build, "compile_commands.json"), encoding="utf-8") as file:
        for entry in json.load(file):
            words = shlex.split(entry["command"])
            if "driftwarden_rooms.dir" in entry["command"] and words[-1].endswith(".cxx") or words[-1].endswith(source):
                keep = [w for w in words if w.startswith(("-I", "-D", "-f", "-std", "-O", "-isystem"))]
                return keep
    raise SystemExit("no compile command found: configure BUILD first")


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("build")
    parser.add_argument("sources", nargs="+")
    parser.add_argument("--floors", default="")
    parser.add_argument("--list", action="store_true", help="only say what would be planted")
    arguments = parser.parse_args()
    known, total, dead, equal = equivalents(), 0, 0, 0
    for source in arguments.sources:
        name = os.path.relpath(source, ROOT)
        with tempfile.TemporaryDirectory() as scratch:
            results = of_source(arguments, os.path.abspath(source), scratch)
        for (line, column, words), died in results:
            place = f"{name}: {words}"
            if died:
                dead += 1
            elif place in known:
                equal += 1
            else:
                print(f"survived: {name}:{line}:{column}: {words}", flush=True)
        total += len(results)
        print(f"{name}: {len(results)} faults, {sum(1 for _, died in results if died)} seen", flush=True)
    rest = total - equal
    print(f"all: {total} faults, {equal} of them known to change nothing; of the others {dead} seen, "
          f"{100 * dead / max(rest, 1):.1f} %", flush=True)
    return 0 if dead >= 0.95 * rest else 1


def of_source(arguments, source, scratch):
    build = os.path.abspath(arguments.build)
    words = compile_words(build, source)
    tree = Tree(source, ["clang++", *[w for w in words if not w.startswith("-f") or w == "-ffp-contract=off"], "-w", "-fsyntax-only",
                         "-Xclang", "-ast-dump=json", "-Xclang", "-ast-dump-filter=driftwarden", source])
    text, faults = planted(tree)
    if arguments.list or not faults:
        for line, column, what in faults.values():
            print(f"{source}:{line}:{column}: {what}")
        return []
    copy = os.path.join(scratch, os.path.basename(source))
    with open(copy, "wb") as file:
        file.write(prelude() + text)
    compiled = subprocess.run(["g++", *words, "-w", "-I", os.path.dirname(source), "-c", copy, "-o", copy + ".o"],
                              cwd=ROOT, stderr=subprocess.PIPE, check=False)
    if compiled.returncode != 0:
        print(f"{source}: does not compile with its faults:\n{compiled.stderr.decode()[:3000]}", flush=True)
        return []
    floor = os.path.basename(os.path.dirname(source))
    floors = [floor] + [f for f in arguments.floors.split(",") if f and f != floor]
    programs = [link(build, name, copy, scratch) for name in floors]
    suites = suites_of(source, floor)
    results = []
    for program in programs:
        if not passes(program, 0, "*"):
            raise SystemExit(f"{program} fails without any fault")
    for number, what in faults.items():
        died = suites and not passes(programs[0], number, suites)
        for program in programs:
            died = died or not passes(program, number, "*")
        results.append((what, died))
    return results


def suites_of(source, floor):
    room = os.path.basename(source)[:-4]
    test = os.path.join(ROOT, "tests", floor, room + "_test.cpp")
    if not os.path.exists(test):
        return ""
    with open(test, encoding="utf-8") as file:
        return ":".join(sorted({m + ".*" for m in re.findall(r"TEST(?:_F|_P)?\((\w+),", file.read())}))


def link(build, floor, mutated, scratch):
    """A test program of a floor in which the source with faults stands for its own room."""
    objects = []
    for folder, _, files in os.walk(os.path.join(build, "tests", "CMakeFiles", f"{floor}_test.dir")):
        objects += [os.path.join(folder, f) for f in files if f.endswith(".o")]
    for folder, _, files in os.walk(os.path.join(build, "tests", "CMakeFiles", "project_folder.dir")):
        objects += [os.path.join(folder, f) for f in files if f.endswith(".o")]
    program = os.path.join(scratch, floor + "_test")
    subprocess.run(["g++", "-o", program, mutated + ".o", *objects, "-Wl,--allow-multiple-definition",
                    os.path.join(build, "libdriftwarden_rooms.a"), "-lgtest_main", "-lgtest", "-lboost_iostreams",
                    "-lboost_filesystem", "-ltomlplusplus", "-lfmt", "-lpugixml", "-lcrypto", "-lpthread"], check=True)
    return program


def passes(program, number, suites):
    try:
        done = subprocess.run([program, f"--gtest_filter={suites}", "--gtest_brief=1", "--gtest_fail_fast"],
                              env={**os.environ, "MUTANT": str(number), "TZ": "Asia/Kathmandu"}, stdout=subprocess.DEVNULL,
                              stderr=subprocess.DEVNULL, timeout=SECONDS, check=False)
        return done.returncode == 0
    except subprocess.TimeoutExpired:
        return False


if __name__ == "__main__":
    sys.exit(main())
