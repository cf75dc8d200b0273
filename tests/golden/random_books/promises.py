# SPDX-License-Identifier: MIT
"""What must hold of any book, without an oracle: each function gives a line for every promise that was broken."""
import pathlib


def same_bytes_with_any_threads(program, book, _scratch, _screened):
    for form in ("json", "csv"):
        first = program.screen(book, form=form)
        for threads in (2, 7):
            if program.screen(book, form=form, threads=threads) != first:
                yield f"{form} with {threads} threads differs"


def same_samples_under_any_filter(program, book, _scratch, screened):
    """A filter chooses what is printed, never what is judged: each sample, pump, batch and calibrator is told as without
    one. Only --until leaves later samples out of what is judged."""
    told = {s["sample"]: s for s in screened["samples"]}
    batches = sorted({s["batch"] for s in screened["samples"] if s["batch"]})
    starts = sorted(s["started"][:10] for s in screened["samples"] if s["started"])
    filters = [("--batch", b) for b in batches[:2]] + [("--sample", n) for n in list(told)[::5]]
    for words in filters + [("--since", starts[len(starts) // 2]), ("--until", starts[len(starts) // 2])]:
        some = program.screened(book, *words)
        if any(s != told[s["sample"]] for s in some["samples"]):
            yield f"{' '.join(words)}: a sample is told otherwise than without"
        subjects = {(s["of"], s["name"]): s for s in screened["subjects"]}
        if words[0] != "--until" and any(s != subjects.get((s["of"], s["name"])) for s in some["subjects"]):
            yield f"{' '.join(words)}: a pump, batch or calibrator is told otherwise than without"
        if not some["samples"]:
            yield f"{' '.join(words)}: no sample is told"


def same_bytes_from_parts(program, book, scratch, _screened):
    parts = scratch / "parts"
    program.run("split", book, "--parts", 2, "--out", parts)
    results = []
    for number in (1, 2):
        results.append(scratch / f"part-{number}.csv")
        results[-1].write_bytes(program.screen(parts / f"part-{number}", form="csv"))
    if program.run("join", parts / "order", *results) != program.screen(book, form="csv"):
        yield "the parts joined are not the whole"


def every_file_in_the_package(program, book, scratch, _screened):
    """All the book's files are packed byte for byte, and the package is found sound and judged the same."""
    package = scratch / "package"
    program.run("evidence", book, "--as-of", program.as_of, "--out", package)
    packed = package / "data" / "book"
    for path in sorted(p for p in pathlib.Path(book).rglob("*") if p.is_file()):
        copy = packed / path.relative_to(book)
        if not copy.is_file() or copy.read_bytes() != path.read_bytes():
            yield f"{path.name} is not in the package as it is"
    said = program.run("verify", package).decode()
    if "Nothing found amiss." not in said:
        yield f"verify: {said[-300:]}"


def own_rules_do_what_their_examples_say(program, book, _scratch, _screened):
    said = program.run("rules", "check", book / "own.toml").decode()
    if "error" in said:
        yield said
