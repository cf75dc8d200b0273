# SPDX-License-Identifier: MIT
"""json_schema.py SCHEMA DOCUMENT...: the schema is a sound one, every document obeys it, and the schema is no
rubber stamp: each of a few small falsifications of every document is refused."""
import copy
import json
import sys

import jsonschema


def falsifications(document):
    """(what was done, document) for each; a document without samples can't be falsified in them."""
    def changed(what, change):
        other = copy.deepcopy(document)
        change(other)
        return what, other

    for key in ("tool", "book", "reference", "rules", "samples", "totals", "problems"):
        yield changed(f"without {key}", lambda d, key=key: d.pop(key))
    yield changed("a total that is a text", lambda d: d["totals"].update(void="1"))
    yield changed("a temperature that is a text", lambda d: d["reference"].update(temperature_c="25"))
    if document["samples"]:
        yield changed("a verdict of its own", lambda d: d["samples"][0].update(verdict="passed"))
        yield changed("a sample without a name", lambda d: d["samples"][0].pop("sample"))
        yield changed("a drift that is a text", lambda d: d["samples"][0].update(drift_percent="1,5"))


def main(schema_path, *document_paths):
    with open(schema_path, encoding="utf-8") as file:
        schema = json.load(file)
    validator_class = jsonschema.validators.validator_for(schema)
    validator_class.check_schema(schema)
    validator = validator_class(schema)
    failures = 0
    for path in document_paths:
        with open(path, encoding="utf-8") as file:
            document = json.load(file)
        for fault in validator.iter_errors(document):
            failures += 1
            print(f"FAILED: {path}: {'/'.join(map(str, fault.absolute_path))}: {fault.message[:200]}")
        for what, false in falsifications(document):
            if validator.is_valid(false):
                failures += 1
                print(f"FAILED: {path}: the schema takes a document {what}")
    print(f"{len(document_paths)} documents, {failures} faults")
    return failures > 0


sys.exit(main(*sys.argv[1:]))
