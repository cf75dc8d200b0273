#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# parts_test.sh PROGRAM: the demo book, with sets of a single reading and rows of totals in it, split by pump, its parts screened by two
# workers at a time (GNU parallel, Dask), and the results joined again are those of the whole book, byte for byte.
set -euo pipefail
program=$1
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
as_of=(--as-of 2026-11-16)

# Of every fifth sample only the first reading after sampling is kept: how its calibrator scatters is pooled over all
# pumps, which no part could know by itself.
cp -r docs/demo "$scratch/book"
/usr/bin/python3 - "$scratch/book" <<'END'
import csv, glob, sys
book = sys.argv[1]
names = [row["sample"] for file in sorted(glob.glob(book + "/samples/*.csv")) for row in csv.DictReader(open(file))]
singles, seen = set(names[::5]), set()
for file in sorted(glob.glob(book + "/readings/*.csv")):
    lines = open(file, encoding="utf-8").read().splitlines()
    kept = [lines[0]]
    for line, cells in zip(lines[1:], csv.reader(lines[1:])):
        one = next((cell for cell in cells if cell in singles), None)
        if one and "post" in cells:
            if one in seen:
                continue
            seen.add(one)
        kept.append(line)
    open(file, "w", encoding="utf-8").write("\n".join(kept) + "\nTotal of the week" + "," * lines[0].count(",") + "\n")
with open(book + "/book.toml", "a", encoding="utf-8") as settings:
    settings.write('\n[files."readings/*.csv"]\nignore_rows = ["Total*"]\n')
END

"$program" screen "$scratch/book" "${as_of[@]}" --format csv --out "$scratch/whole.csv" 2>/dev/null || [ $? -eq 1 ]
"$program" split "$scratch/book" --parts 3 --out "$scratch/parts" >/dev/null 2>&1
# By itself a part pools over its own sets only, and comes to another U: the test would see it.
handed=$(cat "$scratch"/parts/part-*/pooled.csv | grep -vc '^calibrator,') || true
[ "$handed" -ge 20 ] || { printf 'FAILED: only %s single readings are handed what the whole book knows\n' "$handed"; exit 1; }
cp -r "$scratch/parts" "$scratch/alone"
rm "$scratch"/alone/part-*/pooled.csv
for part in 1 2 3; do
  "$program" screen "$scratch/alone/part-$part" "${as_of[@]}" --format csv --out "$scratch/alone/part-$part.csv" 2>/dev/null || [ $? -eq 1 ]
done
"$program" join "$scratch/parts/order" "$scratch"/alone/part-{1,2,3}.csv --out "$scratch/alone.csv"
if cmp -s "$scratch/whole.csv" "$scratch/alone.csv"; then
  printf 'FAILED: the parts do not need what they are handed\n'
  exit 1
fi

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
