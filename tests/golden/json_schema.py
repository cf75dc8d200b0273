# SPDX-License-Identifier: MIT
"""json_schema.py SCHEMA DOCUMENT...: the schema is a sound one, every document obeys it, and the schema is no
rubber stamp: each of a few small falsifications of every document is refused."""
import copy
import json
import sys

import jsonschema

WORDS_OF_A_LIST = ("verdict", "outcome", "chart", "stage", "about", "kind")


def places(document, path=()):
    """Where what stands: (path, member) of every member, of arrays the first entry alone."""
    members = document.items() if isinstance(document, dict) else list(enumerate(document))[:1]
    for key, member in members:
        yield path + (key,), member
        if isinstance(member, (dict, list)):
            yield from places(member, path + (key,))


def changed(document, path, new=None):
    """The document with another member at a path; without one where nothing is given."""
    other = copy.deepcopy(document)
    at = other
    for key in path[:-1]:
        at = at[key]
    if new is None:
        del at[path[-1]]
    else:
        at[path[-1]] = new
    return other


def falsifications(schema, document):
    """(what was done, document) for each."""
    for key in schema["required"]:
        yield f"without {key}", changed(document, (key,))
    yield "with a member that nobody knows", changed(document, ("odd",), 1)
    for path, member in places(document):
        name = ".".join(map(str, path))
        if isinstance(member, (int, float)) and not isinstance(member, bool):
            yield f"whose {name} is a text", changed(document, path, "1,5")
        elif isinstance(member, bool):
            yield f"whose {name} is a text", changed(document, path, "yes")
        elif path[-1] in WORDS_OF_A_LIST and isinstance(member, str):
            yield f"whose {name} is a word of its own", changed(document, path, "passed")


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
        for what, false in falsifications(schema, document):
            if validator.is_valid(false):
                failures += 1
                print(f"FAILED: {path}: the schema takes a document {what}")
    print(f"{schema_path}: {len(document_paths)} documents, {failures} faults")
    return failures > 0


sys.exit(main(*sys.argv[1:]))
