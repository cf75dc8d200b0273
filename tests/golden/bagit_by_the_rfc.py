# SPDX-License-Identifier: MIT
"""bagit_by_the_rfc.py FOLDER...: whether folders are valid bags, by the words of RFC 8493 (BagIt 1.0) alone.

Knows nothing of evidence packages and shares no line with the program: written from the RFC with Python's own library,
since no BagIt validator is to be had as a package of the system. Prints what breaks a rule, with its section; the exit
status is 0 when nothing does.
"""
import hashlib
import os
import pathlib
import re
import sys

KNOWN = ("md5", "sha1", "sha224", "sha256", "sha384", "sha512")


def text_of(file):
    return file.read_bytes().decode("utf-8")


def decoded(name):
    """Section 2.1.3: CR, LF and % of a name are percent-encoded, and nothing else."""
    return re.sub("%(0[Dd]|0[Aa]|25)", lambda found: chr(int(found.group(1), 16)), name)


def manifest(file, tell):
    """Section 2.1.3: a checksum in hexadecimal, linear whitespace, a path from the base directory with '/'."""
    listed = {}
    for line in re.split("\r\n|\r|\n", text_of(file).removesuffix("\n")):
        found = re.fullmatch(r"([0-9A-Fa-f]+)[ \t]+\*?(.+)", line)
        if not found:
            tell("2.1.3", f"{file.name}: no line of a manifest: {line!r}")
            continue
        name = decoded(found.group(2))
        if name.startswith(("/", "~")) or ".." in pathlib.PurePosixPath(name).parts:
            tell("5.1", f"{file.name}: {name!r} may lead out of the bag")
        elif name in listed:
            tell("3", f"{file.name}: {name!r} is listed twice")
        listed[name] = found.group(1).lower()
    return listed


def files_below(base):
    return {str(pathlib.Path(folder, name).relative_to(base).as_posix())
            for folder, _, names in os.walk(base) for name in names}


def faults_of(base):
    faults = []

    def tell(section, what):
        faults.append(f"{base}: section {section}: {what}")

    declaration = base / "bagit.txt"
    lines = text_of(declaration).split("\n") if declaration.is_file() else []
    if len(lines) < 2 or not re.fullmatch(r"BagIt-Version: \d+\.\d+", lines[0]) or \
            lines[1] != "Tag-File-Character-Encoding: UTF-8":
        tell("2.1.1", "no bag declaration")
    if not (base / "data").is_dir():
        tell("2.1.2", "no payload directory data/")
    there = files_below(base)
    payload = {name for name in there if name.startswith("data/")}
    kinds = {"manifest": {}, "tagmanifest": {}}
    for name in there:
        found = re.fullmatch(r"(manifest|tagmanifest)-([a-z0-9]+)\.txt", name)
        if found and found.group(2) in KNOWN:
            kinds[found.group(1)][found.group(2)] = manifest(base / name, tell)
    if not kinds["manifest"]:
        tell("2.1.3", "no payload manifest")
    for algorithm, listed in kinds["manifest"].items():
        for name in sorted(payload ^ set(listed)):
            tell("3", f"{name!r} is not both in data/ and in the {algorithm} manifest")
    for algorithm, listed in kinds["tagmanifest"].items():
        for name in sorted(set(listed) - there):
            tell("3", f"{name!r} is listed and not there")
        for name in listed:
            if name.startswith("data/") or name.startswith("tagmanifest-"):
                tell("2.2.1", f"{name!r} has no place in a tag manifest")
        for other in kinds["manifest"]:
            if f"manifest-{other}.txt" not in listed:
                tell("2.2.1", f"manifest-{other}.txt is not in the {algorithm} tag manifest")
    for listings in kinds.values():
        for algorithm, listed in listings.items():
            for name, digest in listed.items():
                if name in there and hashlib.new(algorithm, (base / name).read_bytes()).hexdigest() != digest:
                    tell("3", f"{name!r} does not have its {algorithm} digest")
    info = text_of(base / "bag-info.txt") if (base / "bag-info.txt").is_file() else ""
    for line in info.splitlines():
        if not re.match(r"[^\s:][^:]*: |[ \t]", line):
            tell("2.2.2", f"bag-info.txt: no metadata element: {line!r}")
    oxum = re.search(r"^Payload-Oxum: (\d+)\.(\d+)$", info, re.M)
    size = sum((base / name).stat().st_size for name in payload)
    if oxum and (int(oxum.group(1)), int(oxum.group(2))) != (size, len(payload)):
        tell("2.2.2", f"Payload-Oxum is {oxum.group(0)}, and the payload {size}.{len(payload)}")
    if (base / "fetch.txt").exists():
        tell("2.2.3", "files would have to be fetched")
    return faults


def main(*folders):
    found = [fault for folder in folders for fault in faults_of(pathlib.Path(folder))]
    print("\n".join(found) if found else f"{len(folders)} valid bags")
    return 1 if found or not folders else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
