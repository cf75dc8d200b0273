#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# coverage_test.sh PROGRAM: of simulated pumps, at least 90 % of the volumes lie within U, as docs/uncertainty.md says; a
# small run of tests/bench/coverage.py, for readings that scatter little and much.
set -euo pipefail
program=$1
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
export PYTHONDONTWRITEBYTECODE=1
for scatter in 0.2 1; do
  /usr/bin/python3 tests/bench/coverage.py "$program" 100 "$scatter" --least
done
