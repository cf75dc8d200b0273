# SPDX-License-Identifier: MIT
"""cautions.py PROGRAM FOLDER: runs the program on the demo book, everything that it writes into FOLDER, and looks for
the cautions in each output. Also in the pages of the manual that tell what the figures may be used for."""
import csv
import html
import json
import pathlib
import re
import shutil
import subprocess
import sys

DAY = ["--as-of", "2026-11-16"]
PAGES = ["README", "docs/audit", "docs/compare", "docs/custody", "docs/decisions", "docs/evidence", "docs/history",
         "docs/lookback", "docs/review", "docs/risk", "docs/uncertainty"]
JSON_FILES = ["screen", "lookback", "nothing", "compare", "risk", "history"]


def words_of(header):
    """The texts of cautions.hpp by their names."""
    found = re.findall(r"string_view (\w+) =\s*((?:\"[^\"]*\"\s*)+);", header.read_text("utf-8"))
    return {name: "".join(re.findall(r"\"([^\"]*)\"", text)) for name, text in found}


def plain(text):
    """Running text, as read: without line breaks, marks of a page or of Markdown."""
    return " ".join(html.unescape(re.sub(r"<[^>]*>", " ", text)).replace("\n> ", "\n").replace("**", "").split())


class Outputs:
    def __init__(self, program, folder):
        self.program, self.folder, self.texts = program, folder, {}

    def run(self, name, *arguments):
        done = subprocess.run([self.program, *arguments], capture_output=True, text=True, encoding="utf-8", check=False)
        assert done.returncode in (0, 1), f"{arguments} ended with {done.returncode}: {done.stderr}"
        self.texts[name] = done.stdout
        return done.stdout

    def read(self, name, path):
        self.texts[name] = (self.folder / path).read_text("utf-8")


def outputs_of(program, folder):
    book = "docs/demo"
    out = Outputs(program, folder)
    out.run("screen", "screen", book, *DAY)
    for form in ("json", "sarif"):
        out.run(f"screen.{form}", "screen", book, *DAY, "--format", form)
    out.run("explain", "explain", book, "TF46B-1", *DAY)
    out.run("explain a blank", "explain", book, "TF46B-B1", *DAY)
    for form in ("table", "csv", "html"):
        out.run(f"custody.{form}", "custody", book, "--batch", "TF46B", *DAY, "--format", form)
    for form in ("table", "csv"):
        out.run(f"kits.{form}", "kit", book, *DAY, "--format", form)
    for form in ("table", "html"):
        out.run(f"kit.{form}", "kit", book, "--kit", "K-2", *DAY, "--format", form)
    for form in ("table", "json", "html"):
        out.run(f"lookback.{form}", "lookback", book, "ROT-2", *DAY, "--format", form)
        out.run(f"nothing.{form}", "lookback", book, "VOL-1", *DAY, "--format", form)
    for form in ("table", "json"):
        out.run(f"compare.{form}", "compare", book, "--rules", "common-practice", "--guard", "1", *DAY, "--format", form)
    for form in ("table", "json"):
        out.run(f"risk.{form}", "risk", book, *DAY, "--format", form)
    out.run("review", "review", book, *DAY, "--out", str(folder / "review.html"))
    out.read("review", "review.html")
    out.run("review in brief", "review", book, *DAY, "--format", "text")
    for name in ("sheet", "form"):
        out.run(name, name, book, "--batch", "TF46B", *DAY, "--out", str(folder / f"{name}.html"))
        out.read(name, f"{name}.html")
    out.run("letter", "letter", book, "--batch", "TF46B", *DAY, "--out", str(folder / "letter.html"))
    out.read("letter", "letter.html")
    out.run("history", "history", book, *DAY, "--out", str(folder / "history"))
    out.read("history.json", "history/history.json")
    out.run("evidence", "evidence", book, "--batch", "TF46B", *DAY, "--out", str(folder / "package"))
    out.run("verify", "verify", str(folder / "package"))
    read_me = next((folder / "package").glob("READ*"), None) or next((folder / "package").rglob("read*me*"))
    out.read("read me of the package", read_me.relative_to(folder))
    for working in sorted((folder / "package/data/workings").glob("*.txt")):
        out.read(f"working {working.name}", working.relative_to(folder))
    out.run("help", "--help")
    return out


def faults_of(out, words, folder):
    for name, text in out.texts.items():
        if name != "evidence" and plain(words["cautions"]) not in plain(text):
            yield f"{name}: without the cautions"
    for name in ("screen.json", *(f"{name}.json" for name in JSON_FILES if name != "screen")):
        if list(json.loads(out.texts[name]))[-1] != "cautions":
            yield f"{name}: the member 'cautions' is not there, or not the last"
    rows = list(csv.reader(out.texts["custody.csv"].splitlines()))
    if rows[0][-1] != "cautions" or any(len(row) != len(rows[0]) or row[-1] != words["cautions"] for row in rows[1:]):
        yield "custody.csv: the last column is not the cautions, in every row"
    charts = sorted((folder / "history").glob("*.svg"))
    for chart in charts:
        if words["cautions_in_a_line"] not in html.unescape(chart.read_text("utf-8")):
            yield f"{chart.name}: no foot with the cautions"
    if len(charts) < 40:
        yield f"only {len(charts)} charts"
    if words["caution_on_advice"] not in plain(out.texts["history"]):
        yield "history: advice on an interval without saying whose it is"


def overruled(out, words, folder):
    shutil.copytree("docs/demo", folder / "book")
    said = out.run("decide", "decide", str(folder / "book"), "TF46B-1", "flow-held",
                   "overrule", "--by", "site hygienist", "--reason", "to see what is said")
    del out.texts["decide"]
    if plain(words["caution_on_overruling"]) not in plain(said):
        yield "decide overrule: does not say who answers for it"


def main(program, folder):
    words = words_of(pathlib.Path("src/verdict/cautions.hpp"))
    out = outputs_of(program, folder)
    faults = [*overruled(out, words, folder), *faults_of(out, words, folder)]
    for page in PAGES:
        if plain(words["cautions"]) not in plain(pathlib.Path(f"{page}.md").read_text("utf-8")):
            faults.append(f"{page}.md: without the cautions")
    print("\n".join(faults))
    print(f"{len(out.texts) + len(PAGES)} texts read for their cautions, {len(faults)} faults")
    return 1 if faults or len(out.texts) < 25 else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], pathlib.Path(sys.argv[2])))
