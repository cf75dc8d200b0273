#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# parts_test.sh PROGRAM: the demo book split by pump, its parts screened by two workers at a time (GNU parallel, Dask),
# and the results joined again are those of the whole book, byte for byte.
set -euo pipefail
program=$1
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
as_of=(--as-of 2026-11-16)

"$program" screen docs/demo "${as_of[@]}" --format csv --out "$scratch/whole.csv" 2>/dev/null || [ $? -eq 1 ]
"$program" split docs/demo --parts 3 --out "$scratch/parts" >/dev/null 2>&1

# joined ENGINE: compares what the engine's results give together.
joined() {
  "$program" join "$scratch/parts/order" "$scratch/$1"/part-{1,2,3}.csv --out "$scratch/$1.csv"
  cmp "$scratch/whole.csv" "$scratch/$1.csv"
  printf '%s: the parts are the whole, %d rows\n' "$1" "$(($(wc -l <"$scratch/$1.csv") - 1))"
}

mkdir "$scratch/parallel" "$scratch/dask"
# Status 1 of a part says that something in it is void or undecided, as it does of the whole book.
PARALLEL_HOME=$scratch parallel --will-cite -j2 \
  "$program" screen "$scratch/parts/part-{}" "${as_of[@]}" --format csv --out "$scratch/parallel/part-{}.csv" \
  ::: 1 2 3 2>/dev/null || [ $? -le 3 ]
joined parallel

DASK_TEMPORARY_DIRECTORY=$scratch /usr/bin/python3 tests/golden/parts_dask.py "$program" "$scratch/parts" "$scratch/dask" 2>"$scratch/dask.log" ||
  { tail -n 20 "$scratch/dask.log"; exit 1; }
joined dask
