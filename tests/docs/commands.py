# SPDX-License-Identifier: MIT
"""commands.py PROGRAM [--write] [DOCUMENT...]: runs the commands that the manual shows and compares what they print.

In a fenced block that begins with ```sh, a line `$ driftwarden ...` is a command, run by the shell, as is one of
the other programs RUN; the lines up to the
next command or the end of the block are what it prints, on both streams. A line of a single `…` stands for any lines,
also for none. What is shown so is regression, no check: it says what the program prints, not that it is right. A command that ends with a status above 1 shows it, as in `$ driftwarden check x; echo "status $?"`.

All commands of a document run one after another in one folder of their own, which holds copies of docs/demo,
docs/demo-typo and rules. With --write, blocks without a `…` are filled with what the commands print today.
"""
import difflib
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
PROMPT = "$ "
RUN = (" driftwarden ", " openssl ", " env ")
ANY_LINES = "…"
COPIED = ("docs/demo", "docs/demo-typo", "rules")


class Shown:
    """One command of a document, with what it is said to print: lines first to last of the document, from 0."""

    def __init__(self, line, command):
        self.line = line
        self.command = command
        self.first = line + 1
        self.printed = []


def shown_commands(lines):
    """The commands of a document. A block of ```sh without a driftwarden command is left alone."""
    commands, in_block = [], False
    for number, line in enumerate(lines):
        if line.startswith("```"):
            in_block = not in_block and line.strip() == "```sh"
            current = None
        elif in_block and line.startswith(PROMPT) and any(word in " " + line[len(PROMPT):] for word in RUN):
            current = Shown(number, line[len(PROMPT):])
            commands.append(current)
        elif in_block and line.startswith(PROMPT):
            current = None
        elif in_block and current is not None:
            current.printed.append(line)
    return commands


def matches(expected, actual):
    """Whether the lines are those expected, `…` standing for any number of lines."""
    # reachable[j]: what was looked at of `expected` can be the first j lines of `actual`.
    reachable = {0}
    for line in expected:
        if line == ANY_LINES:
            reachable = set(range(min(reachable), len(actual) + 1)) if reachable else reachable
        else:
            reachable = {j + 1 for j in reachable if j < len(actual) and actual[j] == line}
    return len(actual) in reachable


def run(command, folder, path):
    """(lines printed on both streams, status)"""
    environment = dict(os.environ, PATH=path)
    done = subprocess.run(["bash", "-c", command], cwd=folder, env=environment, stdin=subprocess.DEVNULL, timeout=300,
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
    return done.stdout.decode("utf-8").splitlines(), done.returncode


def working_folder(scratch, document):
    folder = scratch / str(document).replace("/", "_")
    for name in COPIED:
        shutil.copytree(ROOT / name, folder / name)
    return folder


def check(document, scratch, path, write):
    """(commands run, faults told) of one document."""
    file = ROOT / document
    lines = file.read_text(encoding="utf-8").splitlines()
    commands = shown_commands(lines)
    if not commands:
        return 0, 0
    folder = working_folder(scratch, document)
    faults, replaced = 0, []
    for shown in commands:
        actual, status = run(shown.command, folder, path)
        if write and ANY_LINES not in shown.printed and actual != shown.printed:
            replaced.append((shown, actual))
        elif not matches(shown.printed, actual):
            faults += 1
            print(f"FAILED: {document}:{shown.line + 1}: {shown.command}")
            print("\n".join(difflib.unified_diff(shown.printed, actual, "as shown", "as printed", lineterm="", n=1)))
        if status > 1:
            faults += 1
            print(f"FAILED: {document}:{shown.line + 1}: {shown.command}: ended with status {status}")
    for shown, actual in reversed(replaced):
        lines[shown.first:shown.first + len(shown.printed)] = actual
    if replaced:
        file.write_text("\n".join(lines) + "\n", encoding="utf-8")
        print(f"{document}: {len(replaced)} outputs written")
    return len(commands), faults


def main(program, *rest):
    write = "--write" in rest
    documents = [pathlib.Path(name) for name in rest if name != "--write"]
    if not documents:
        found = [ROOT / "README.md", ROOT / "DEVELOPERS.md", ROOT / "rules/README.md", *sorted((ROOT / "docs").rglob("*.md"))]
        documents = [file.relative_to(ROOT) for file in found]
    run_in_all = faults_in_all = 0
    with tempfile.TemporaryDirectory() as name:
        scratch = pathlib.Path(name)
        (scratch / "bin").mkdir()
        (scratch / "bin/driftwarden").symlink_to(pathlib.Path(program).resolve())
        path = f"{scratch / 'bin'}:{os.environ['PATH']}"
        for document in documents:
            commands, faults = check(document, scratch, path, write)
            run_in_all += commands
            faults_in_all += faults
    print(f"{run_in_all} commands run, {faults_in_all} faults")
    return faults_in_all > 0 or run_in_all == 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
