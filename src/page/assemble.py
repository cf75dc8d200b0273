#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""assemble.py SOURCES BUILD: writes BUILD/driftwarden.html, the whole page, from what was built: the same bytes from the same."""
import base64
import gzip
import hashlib
import json
import pathlib
import re
import subprocess
import sys

sources, build = map(pathlib.Path, sys.argv[1:])
page = sources / "src" / "page"


def text_of(path):
    return path.read_text(encoding="utf-8")


def policy_hash(text):
    return "'sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode() + "'"


def cautions():
    """The one text that every page and command says, out of its header."""
    literals = re.search(r"cautions\s*=(.*?);\n", text_of(sources / "src/verdict/cautions.hpp"), re.S).group(1)
    return "".join(re.findall(r'"((?:[^"\\]|\\.)*)"', literals))


def zone_release():
    first = text_of(pathlib.Path("/usr/share/zoneinfo/tzdata.zi")).splitlines()[0]
    return first.removeprefix("# version ")


packed = gzip.compress((build / "packed.tar").read_bytes(), 9, mtime=0)
script = text_of(page / "page.js")
worker = "\n".join([text_of(build / "driftwarden.js")] + [text_of(page / name) for name in ("run.js", "unpack.js", "verdicts.js", "worker.js")])
style = text_of(sources / "src/report/page.css") + text_of(page / "look.css")
# Pages within this one keep to its policy and to their own.
within = json.loads(subprocess.run(["node", page / "policies.js", build, sources / "docs/demo"], check=True, capture_output=True, text=True).stdout)
styles, scripts = (" ".join([policy_hash(own)] + [f"'{digest}'" for digest in within[what]]) for what, own in (("style", style), ("script", script)))
policy = (f"default-src 'none'; script-src {scripts} 'wasm-unsafe-eval'; worker-src blob:; style-src {styles}; "
          "img-src data:; frame-src 'self'; base-uri 'none'; form-action 'none'")
parts = {
    "POLICY": policy, "STYLE": style, "CAUTIONS": cautions(), "TZDATA": zone_release(),
    "DIGEST": hashlib.sha256((build / "packed.tar").read_bytes()).hexdigest(), "WORKER": worker,
    "PACKED": base64.b64encode(packed).decode(), "SCRIPT": script,
}
for name in ("WORKER", "SCRIPT"):
    if "</script" in parts[name].lower():
        sys.exit(f"the {name.lower()} holds what would end it in HTML")
whole = re.sub(r"@([A-Z]+)@", lambda found: parts[found.group(1)], text_of(page / "page.html"))
(build / "driftwarden.html").write_text(whole, encoding="utf-8")
