#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# workbooks_test.sh PROGRAM: the demo book, kept in workbooks that three libraries write, gives the verdicts that it gives
# in CSV; a package made of them is verified from them; and what is no sound workbook gets one clear error.
set -euo pipefail
program=$1
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
export PYTHONDONTWRITEBYTECODE=1
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

# screen BOOK NAME: its verdicts and what is told of its files, with the places that the CSV files have.
screen() {
  local status=0
  "$program" screen "$1" --as-of 2026-11-16 --format csv >"$scratch/$2.csv" 2>"$scratch/$2.told" || status=$?
  [ "$status" -le 1 ] || { cat "$scratch/$2.told"; printf 'FAILED: the screening of %s ended with %d\n' "$2" "$status"; exit 1; }
  sed -E -i 's/book\.(xlsx|ods):([a-z]+)!/\2.csv:/g; s/\.(xlsx|ods):[^!]*!/.csv:/g' "$scratch/$2.csv" "$scratch/$2.told"
}

screen docs/demo csv
for library in openpyxl xlsxwriter odf; do
  for one in "" --one; do
    book=$scratch/$library$one
    /usr/bin/python3 tests/support/make_workbooks.py "$library" docs/demo "$book" $one
    screen "$book" "$library$one"
    for kind in csv told; do
      diff "$scratch/csv.$kind" "$scratch/$library$one.$kind" >"$scratch/difference" ||
        { head -5 "$scratch/difference"; printf 'FAILED: %s%s is read otherwise than CSV\n' "$library" "$one"; exit 1; }
    done
  done
done

"$program" evidence "$scratch/odf--one" --as-of 2026-11-16 --out "$scratch/package" >/dev/null 2>"$scratch/told" ||
  [ $? -eq 1 ] || { cat "$scratch/told"; printf 'FAILED: no package of workbooks\n'; exit 1; }
cmp "$scratch/odf--one/book.ods" "$scratch/package/data/book/book.ods"
"$program" verify "$scratch/package" >"$scratch/verified" 2>&1 || { cat "$scratch/verified"; printf 'FAILED: not verified\n'; exit 1; }

/usr/bin/python3 tests/golden/workbooks.py "$program" "$scratch"
