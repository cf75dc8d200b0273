# SPDX-License-Identifier: MIT
"""altered_packages.py PROGRAM BOOK BATCH TIMES SEED [SIGNER_KEY SIGNER_PEM]: alters evidence packages, and has them verified.

A package of a batch is made unsigned and, with keys, signed, each also as if another version had made it. Then TIMES times
one of its files is altered, and every digest made anew as somebody would who means harm.
Whatever changes a verdict, a figure, a record, a rule or a text must end with status 1, and say so. A drawing that says
another gnuplot drew it can't be drawn again: without a signature that is said, and no more. The kinds and how many of each
were found are printed as a table; the exit status is 0 when none was missed.

Not altered is what only a signature shows: all results made anew from other inputs.
"""
import collections
import hashlib
import json
import pathlib
import random
import re
import shutil
import subprocess
import sys
import tempfile

AS_OF = "2026-11-16"
VERDICTS = ("valid", "qualified", "undecided", "void")


def run(words):
    return subprocess.run([str(word) for word in words], check=False, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT)


def digest_again(bag):
    """Manifests and Payload-Oxum of whatever now lies there; a signature stays what it was."""
    payload = sorted(path for path in (bag / "data").rglob("*") if path.is_file())
    size = f"Payload-Oxum: {sum(path.stat().st_size for path in payload)}.{len(payload)}"
    info = (bag / "bag-info.txt").read_text()
    (bag / "bag-info.txt").write_text(re.sub("Payload-Oxum: .*", size, info))

    def manifest(paths):
        names = sorted((str(path.relative_to(bag)), path) for path in paths)
        return "".join(f"{hashlib.sha512(path.read_bytes()).hexdigest()}  {name}\n" for name, path in names)

    (bag / "manifest-sha512.txt").write_text(manifest(payload))
    tags = [path for path in bag.iterdir()
            if path.is_file() and path.name not in ("tagmanifest-sha512.txt", "signature.ed25519")]
    (bag / "tagmanifest-sha512.txt").write_text(manifest(tags))


def of_another_version(bag):
    version = json.loads((bag / "data/package.json").read_text())["tool"]["version"]
    for name in ("data/package.json", "data/results/screen.json", "READ-ME-FIRST.txt", "bag-info.txt", "data/review.html"):
        path = bag / name
        path.write_text(path.read_text().replace(version, "0.0.9"))


def sign_again(bag, key):
    run(["openssl", "pkeyutl", "-sign", "-rawin", "-inkey", key, "-in", bag / "tagmanifest-sha512.txt",
         "-out", bag / "signature.ed25519"])


class Unsuitable(Exception):
    """The file drawn has nothing of the kind to alter."""


def some(found):
    found = list(found)
    if not found:
        raise Unsuitable
    return random.choice(found)


def files(bag, pattern):
    return sorted(path for path in bag.glob(pattern) if path.is_file())


def put(path, text, begin, end, new):
    if text[begin:end] == new:
        raise Unsuitable
    path.write_text(text[:begin] + new + text[end:])


def verdict(pattern):
    """Another verdict in one place of a file."""
    def alter(bag):
        path = some(files(bag, pattern))
        text = path.read_text()
        match = some(re.finditer(r"\b(" + "|".join(VERDICTS) + r")\b", text))
        put(path, text, *match.span(), some(v for v in VERDICTS if v != match.group()))
    return alter


def figure(pattern):
    """Another digit in one figure of a file; not the last of sixteen, which is told and is no difference."""
    def alter(bag):
        path = some(files(bag, pattern))
        text = path.read_text()
        match = some(re.finditer(r"(?<![\w.])\d+(\.\d+)?(?![\w.])", text))
        digits = [i for i in range(*match.span()) if text[i].isdigit()][:11]
        at = some(digits)
        put(path, text, at, at + 1, some(d for d in "0123456789" if d != text[at]))
    return alter


def letter(pattern):
    """Another letter in one word of a file."""
    def alter(bag):
        path = some(files(bag, pattern))
        text = path.read_text()
        at = some(match.start() for match in re.finditer("[a-z]", text))
        put(path, text, at, at + 1, some(c for c in "aeiouxz" if c != text[at]))
    return alter


def line(pattern, how):
    """A line more, less, twice, or two in another order."""
    def alter(bag):
        path = some(files(bag, pattern))
        lines = path.read_text().splitlines(keepends=True)
        if len(lines) < 3:
            raise Unsuitable
        at = random.randrange(1, len(lines) - 1)
        changed = {"gone": lines[:at] + lines[at + 1:], "twice": lines[:at] + lines[at:at + 1] + lines[at:],
                   "moved": lines[:at] + [lines[at + 1], lines[at]] + lines[at + 2:]}[how]
        if changed == lines:
            raise Unsuitable
        path.write_text("".join(changed))
    return alter


def gone(pattern):
    return lambda bag: some(files(bag, pattern)).unlink()


def cut(pattern):
    def alter(bag):
        path = some(files(bag, pattern))
        text = path.read_bytes()
        path.write_bytes(text[:random.randrange(len(text))])
    return alter


def added(bag):
    name = some(["data/book/more.csv", "data/book/readings/more.csv", "data/rules/more.toml", "data/results/more.csv",
                 "data/workings/more.txt", "data/charts/more.svg", "data/more.html", "MORE.txt"])
    (bag / name).parent.mkdir(exist_ok=True)
    (bag / name).write_text("sample,verdict\n")


def reading(bag):
    """Another digit in a reading that the results lean on."""
    used = (bag / "data/rows-used.csv").read_text().splitlines()
    place = some(row.split(",") for row in used if "readings/" in row)
    file = next(cell for cell in place if cell.startswith("readings/"))
    path, number = bag / "data/book" / file, int(some(cell for cell in place if cell.isdigit()))
    lines = path.read_text().splitlines(keepends=True)
    match = some(re.finditer(r"(?<=,)[12]\.\d{3,}(?=,)", lines[number - 1]))
    at = match.start() + 2
    lines[number - 1] = lines[number - 1][:at] + str((int(lines[number - 1][at]) + 3) % 10) + lines[number - 1][at + 1:]
    path.write_text("".join(lines))


def rule(bag):
    """Another limit in a shipped pack."""
    path = some(files(bag, "data/rules/*.toml"))
    text = path.read_text()
    match = some(re.finditer(r'(within|at_most|at_least) *= "(\d)', text))
    put(path, text, match.start(2), match.end(2), some(d for d in "123456789" if d != match.group(2)))


def note(bag):
    path = bag / "data/package.json"
    data = json.loads(path.read_text())
    key = some(["as_of", "batches", "charts", "signed", "version"])
    other = {"as_of": "2026-11-02", "batches": [], "charts": not data["charts"], "signed": not data["signed"]}
    if key == "version":
        data["tool"]["version"] = "0.1.0\nsignature   good"
    else:
        data[key] = other[key]
    path.write_text(json.dumps(data, indent=2) + "\n")


def chart(bag):
    """Another digit in the path of a drawing."""
    path = some(files(bag, "data/charts/*.svg"))
    text = path.read_text()
    match = some(re.finditer(r"(?<=[ML])\d+", text))
    put(path, text, match.start(), match.start() + 1, some(d for d in "123456789" if d != text[match.start()]))


def other_gnuplot(bag):
    """A line of a drawing elsewhere, and another gnuplot named."""
    chart(bag)
    for path in files(bag, "data/charts/*.svg"):
        path.write_text(path.read_text().replace("Produced by GNUPLOT", "Produced by GNUPLOT 0.9, not"))


def unsigned(bag):
    """The signature taken away, all else left."""
    if not (bag / "signature.ed25519").exists():
        raise Unsuitable
    for name in ("signature.ed25519", "signed-by.pem"):
        (bag / name).unlink()


SAID_ONLY = "a drawing by another gnuplot"
KINDS = {
    "another verdict, screen.csv": verdict("data/results/screen.csv"),
    "another verdict, screen.json": verdict("data/results/screen.json"),
    "another verdict, screen.txt": verdict("data/results/screen.txt"),
    "another verdict, a working": verdict("data/workings/*.txt"),
    "another verdict, review page": verdict("data/review.html"),
    "another verdict, first page": verdict("READ-ME-FIRST.txt"),
    "another figure, screen.csv": figure("data/results/screen.csv"),
    "another figure, screen.json": figure("data/results/screen.json"),
    "another figure, screen.txt": figure("data/results/screen.txt"),
    "another figure, a working": figure("data/workings/*.txt"),
    "another figure, history": figure("data/results/history.*"),
    "another figure, first page": figure("READ-ME-FIRST.txt"),
    "another letter, a result": letter("data/results/*"),
    "another letter, a working": letter("data/workings/*"),
    "another letter, review page": letter("data/review.html"),
    "another letter, first page": letter("READ-ME-FIRST.txt"),
    "another letter, bag-info.txt": letter("bag-info.txt"),
    "a row gone, a result": line("data/results/*.csv", "gone"),
    "a row twice, a result": line("data/results/*.csv", "twice"),
    "rows in another order": line("data/results/*.csv", "moved"),
    "a row gone, rows-used.csv": line("data/rows-used.csv", "gone"),
    "a line gone, a working": line("data/workings/*.txt", "gone"),
    "a text gone": gone("data/results/*"),
    "a working gone": gone("data/workings/*"),
    "the review page gone": gone("data/review.html"),
    "a chart gone": gone("data/charts/*"),
    "a text cut off": cut("data/results/*"),
    "a file added": added,
    "another reading": reading,
    "another limit of a rule": rule,
    "package.json says another thing": note,
    "a line of a drawing elsewhere": chart,
    SAID_ONLY: other_gnuplot,
    "the signature taken away": unsigned,
}


class Tally:
    def __init__(self):
        self.found, self.missed, self.faults = collections.Counter(), collections.Counter(), []

    def note(self, kind, done, how):
        said = done.stdout.decode(errors="replace")
        is_found = done.returncode == 1 and "Nothing found amiss" not in said
        is_found |= kind == SAID_ONLY and how.startswith("unsigned") and "nobody can say that they are as they were drawn" in said
        counts = self.found if is_found else self.missed
        counts[kind] += 1
        counts[how] += 1
        if not is_found:
            self.faults.append(f"{kind} ({how}): status {done.returncode}\n{said[-600:]}")

    def never_made(self):
        return [kind for kind in KINDS if self.found[kind] + self.missed[kind] == 0]

    def table(self):
        lines = [f"{'alteration':34}{'made':>6}{'found':>7}"]  # or said, as above
        hows = [name for name in {**self.found, **self.missed} if name not in KINDS]
        for name in [*KINDS, *sorted(hows)]:
            lines.append(f"{name:34}{self.found[name] + self.missed[name]:6}{self.found[name]:7}")
        found, missed = (sum(counts[kind] for kind in KINDS) for counts in (self.found, self.missed))
        return "\n".join([*lines, f"{'all':34}{found + missed:6}{found:7}"])


def packages(program, book, batch, scratch, keys):
    """A package to alter by how it was made, and the words to verify it with."""
    made = {"unsigned": (scratch / "unsigned", []), "unsigned, another version": (scratch / "other", [])}
    run([program, "evidence", book, "--batch", batch, "--as-of", AS_OF, "--out", scratch / "unsigned"])
    shutil.copytree(scratch / "unsigned", scratch / "other")
    of_another_version(scratch / "other")
    digest_again(scratch / "other")
    if keys:
        run([program, "evidence", book, "--batch", batch, "--as-of", AS_OF, "--sign", keys[0], "--out", scratch / "signed"])
        shutil.copytree(scratch / "signed", scratch / "signed-other")
        of_another_version(scratch / "signed-other")
        digest_again(scratch / "signed-other")
        sign_again(scratch / "signed-other", keys[0])
        for name, folder in (("signed", "signed"), ("signed, another version", "signed-other")):
            made[name] = (scratch / folder, [])
            made[name + ", with the key"] = (scratch / folder, ["--key", keys[1]])
    return made


def main(program, book, batch, times, seed, *keys):
    random.seed(int(seed))
    tally = Tally()
    with tempfile.TemporaryDirectory() as name:
        scratch = pathlib.Path(name)
        made = packages(program, book, batch, scratch, keys)
        for how, (bag, words) in made.items():
            done = run([program, "verify", bag, *words])
            if done.returncode != 0:
                print(f"FAILED: the {how} package as it was made: {done.stdout.decode()[-800:]}")
                return 1
        number = 0
        while number < int(times):
            kind = list(KINDS)[number % len(KINDS)]
            how, (original, words) = list(made.items())[(number + number // len(KINDS)) % len(made)]
            bag = scratch / "altered"
            shutil.rmtree(bag, ignore_errors=True)
            shutil.copytree(original, bag)
            number += 1
            try:
                KINDS[kind](bag)
            except Unsuitable:
                continue
            digest_again(bag)
            tally.note(kind, run([program, "verify", bag, *words]), how)
    print(tally.table())
    print("\n".join(f"MISSED: {fault}" for fault in tally.faults[:20]))
    never = tally.never_made() if int(times) >= 2 * len(KINDS) * len(made) else []
    print("\n".join(f"NEVER MADE, so nothing was shown of it: {kind}" for kind in never))
    return 1 if tally.faults or never else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
