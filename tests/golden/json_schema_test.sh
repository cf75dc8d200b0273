#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# json_schema_test.sh PROGRAM: what `screen --format json` prints is what docs/screen.schema.json says, by the judgement
# of a validator that is not ours (the Debian package python3-jsonschema).
set -euo pipefail
program=$1
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
failures=0

# For every book: the document is valid. The books with faults fill the list of problems.
for book in docs/demo docs/demo-typo tests/reference/mass; do
  status=0
  "$program" screen "$book" --as-of 2026-11-16 --format json >"$scratch/${book//\//-}.json" 2>"$scratch/remarks" || status=$?
  if [ "$status" -gt 2 ]; then
    printf 'FAILED: screen %s ended with status %d\n' "$book" "$status"
    cat "$scratch/remarks"
    failures=$((failures + 1))
  fi
done

/usr/bin/python3 tests/golden/json_schema.py docs/screen.schema.json "$scratch"/*.json || failures=$((failures + 1))
exit $((failures > 0))
