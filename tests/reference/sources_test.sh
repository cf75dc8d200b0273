#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# sources_test.sh, from the top of the checkout: what stands behind the figures of the tests.
# 1. Every check value has a kind and a source that somebody else can follow.
# 2. What is marked as worked out elsewhere is worked out here, in Python and without the program, and agrees.
# 3. These checks can fail: a row without kind, a key of our own, a figure changed in its last digit are each found.
set -u
support=tests/support
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
failed=0

run() { LC_ALL=C.UTF-8 PYTHONDONTWRITEBYTECODE=1 /usr/bin/python3 "$@"; }
fail() {
  failed=1
  echo "FAILED $1"
}

run $support/check_values.py tests --faults || fail "a check value without kind or source"
run $support/reference_arithmetic.py tests/reference || fail "a row of the reference books"
run $support/computed_values.py tests || fail "a figure of a unit test"
run $support/elementary_values.py elementary | cmp - tests/quantity/data/elementary.txt || fail "an elementary function"
run $support/elementary_values.py special | cmp - tests/statistics/data/special_functions.txt || fail "a special function"

# spoiled FILE SED SCRIPT: the script has to find the fault in a copy of the tests.
spoiled() {
  local file=$1 change=$2
  shift 2
  rm -rf "$scratch/tests"
  mkdir "$scratch/tests"
  cp -r tests/*/ "$scratch/tests"
  sed -i "$change" "$scratch/tests/$file"
  ! cmp -s "tests/$file" "$scratch/tests/$file" || fail "'$change' changes nothing in $file"
  ! run "$@" >/dev/null 2>&1 || fail "'$change' in $file is not noticed"
}
spoiled reference/mass/expected.csv '2s/,own input$/,/' $support/check_values.py "$scratch/tests" --faults
spoiled reference/mass/expected.csv '2s/ideal gas/E24/' $support/check_values.py "$scratch/tests" --faults
spoiled assessment/cut_size_test.cpp 's/own input: //' $support/check_values.py "$scratch/tests" --faults
spoiled reference/mass/expected.csv '2s/2.1689/2.1690/' $support/reference_arithmetic.py "$scratch/tests/reference" rules
spoiled reference/bands/expected.csv '0,/absent/s/absent/qualified/' $support/reference_arithmetic.py "$scratch/tests/reference" rules
spoiled correction/rotameter_test.cpp 's/1.9031/1.9032/' $support/computed_values.py "$scratch/tests"
exit $failed
