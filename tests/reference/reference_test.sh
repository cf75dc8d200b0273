#!/bin/bash
# SPDX-License-Identifier: MIT
# reference_test.sh PROGRAM, from the top of the checkout.
# "explain" tells the working of a sample of each book, down to file and line of a reading.
set -u
program=${1:?the path of the program is missing}
folder=tests/reference
passed=0
failed=0

pass() { passed=$((passed + 1)); }
fail() {
  failed=$((failed + 1))
  echo "FAILED $1"
}

while read -r expectation; do
  book=${expectation%/expected.csv}
  sample=$(sed -n '2s/[,"].*//p' "$book/samples.csv")
  working=$("$program" explain "$book" "$sample")
  status=$?
  if [ "$status" -gt 1 ]; then
    fail "$book: explain $sample ends with status $status"
  elif ! grep -qE 'readings[^ ]*\.csv:[0-9]+' <<<"$working"; then
    fail "$book: explain $sample names no line of the readings"
  else
    pass
  fi
done < <(find "$folder" -name expected.csv | LC_ALL=C sort)

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
