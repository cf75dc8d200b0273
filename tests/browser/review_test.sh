#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# review_test.sh PROGRAM: the review pages of the demo, of a book that is hard on a page, of one with 2,000 samples, of another
# one of the demo's size and of one with 14 samples, in a real browser, with the sheets of custody and look-back; and what the program prints itself.
set -euo pipefail
program=$1
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
failures=0
fail() { printf 'FAILED: %s\n' "$1"; failures=$((failures + 1)); }

# page BOOK DAY FILE [OPTION...]: status 1 is expected, for something is void in each of these books, or 2 where records
# can't be understood.
page() {
  local status=0
  "$program" review "$1" --as-of "$2" --out "$3" "${@:4}" >"$scratch/said" 2>&1 || status=$?
  [ -s "$3" ] || { cat "$scratch/said"; fail "review of $1 wrote no $3"; }
  [ "$status" -eq 1 ] || [ "$status" -eq 2 ] || { cat "$scratch/said"; fail "review of $1 ended with status $status"; }
}

for book in hostile large other small; do /usr/bin/python3 tests/browser/books.py "$book" "$scratch/$book"; done
page docs/demo 2026-11-16 "$scratch/demo.html"
page "$scratch/hostile" 2026-09-23 "$scratch/hostile.html"
page "$scratch/large" 2026-11-15 "$scratch/large.html"
page "$scratch/other" 2026-05-04 "$scratch/other.html"
page "$scratch/small" 2026-05-11 "$scratch/small.html"

# sheet FILE COMMAND…: the same of custody and look-back.
sheet() {
  local file=$1 status=0
  shift
  "$program" "$@" --out "$scratch/$file.html" >"$scratch/said" 2>&1 || status=$?
  [ "$status" -eq 1 ] || { cat "$scratch/said"; fail "$* ended with status $status"; }
}
/usr/bin/python3 tests/browser/books.py batches "$scratch/batches"
sheet custody custody docs/demo --batch TF46B --as-of 2026-11-16
sheet fourteen custody "$scratch/batches" --batch FOURTEEN --as-of 2026-11-16
sheet forty custody "$scratch/batches" --batch FORTY --as-of 2026-11-16
sheet letter letter "$scratch/batches" --batch FOURTEEN --as-of 2026-11-16
sheet lookback lookback docs/demo ROT-2 --as-of 2026-11-16

for again in 1 2; do page docs/demo 2026-11-16 "$scratch/$again.pdf" --format pdf; done
# The browser lays its objects out anew each time, under load in another order: what stands on the pages is the same.
for again in 1 2; do pdftotext -layout "$scratch/$again.pdf"; done
cmp "$scratch/1.txt" "$scratch/2.txt" || fail 'the same page printed twice says other things'
pdfinfo "$scratch/1.pdf" | grep -q 'Page size: .*(A4)' || fail 'the PDF is not on A4'
pdfinfo "$scratch/1.pdf" | grep -q '^CreationDate: .*Nov 16 .*2026' || fail 'the PDF was not made on the day of the review'
page docs/demo 2026-11-16 "$scratch/letter.pdf" --format pdf --paper letter
pdfinfo "$scratch/letter.pdf" | grep -q 'Page size: .*(letter)' || fail 'the PDF is not on Letter'

AXE=${AXE-$root/build/axe/node_modules/axe-core/axe.min.js} \
  /usr/bin/python3 -B tests/browser/review_pages.py "$scratch/demo.html" "$scratch/hostile.html" "$scratch/large.html" "$scratch" \
    "$scratch/other.html" "$scratch/small.html" ||
  failures=$((failures + 1))
[ "$failures" -eq 0 ] && printf 'review pages: all as expected\n'
exit $((failures > 0))
