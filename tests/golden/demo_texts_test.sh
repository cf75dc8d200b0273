#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# demo_texts_test.sh PROGRAM: what people read of the demo book, letter by letter: the table of all samples, and the
# working of a void sample and of one that a rotameter was read for. The expected texts lie in golden/demo; they are
# regression, no check: the program wrote them.
# When one changes on purpose: DRIFTWARDEN_WRITE_GOLDEN=1 bash tests/golden/demo_texts_test.sh PROGRAM, and read the
# difference.
set -euo pipefail
program=$1
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
failures=0

# expect STATUS FILE COMMAND...: what the command prints, and its status.
expect() {
  local expected_status=$1 file=tests/golden/demo/$2 status=0
  shift 2
  "$program" "$@" --as-of 2026-11-16 >"$scratch/printed" 2>"$scratch/remarks" </dev/null || status=$?
  if [ "$status" -ne "$expected_status" ]; then
    printf 'FAILED: %s ended with status %d, not %d\n' "$*" "$status" "$expected_status"
    cat "$scratch/remarks"
    failures=$((failures + 1))
  fi
  if [ -n "${DRIFTWARDEN_WRITE_GOLDEN-}" ]; then
    cp "$scratch/printed" "$file"
  elif ! diff "$file" "$scratch/printed" >"$scratch/diff"; then
    printf 'FAILED: %s prints otherwise than %s:\n' "$*" "$file"
    head -n 20 "$scratch/diff"
    failures=$((failures + 1))
  fi
}

expect 1 table.txt screen docs/demo
expect 1 explain-void.txt explain docs/demo TF46B-1
expect 0 explain-rotameter.txt explain docs/demo TF42A-1
printf '3 texts compared, %d failures\n' "$failures"
exit $((failures > 0))
