#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# field_sheet_test.sh PROGRAM: field sheets as they come out of a printer: one side a pump and day on A4 and on Letter,
# and codes that a scanner reads from the paper.
set -euo pipefail
program=$1
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
failures=0
fail() { printf 'FAILED: %s\n' "$1"; failures=$((failures + 1)); }

cp -r docs/demo "$scratch/book"
cat >"$scratch/book/plan.csv" <<'END'
sample,batch,kind,pump,sampler,method,analysis,medium,day,calibrator
TF48A-1,TF48A,,PUMP-01,respirable-parallel-impactor,site method 7,respirable dust and quartz,C-4801,2026-11-30,BUB-1
TF48A-2,TF48A,,PUMP-01,respirable-parallel-impactor,site method 7,respirable dust and quartz,C-4802,2026-11-30,BUB-1
TF48A-3,TF48A,,PUMP-02,respirable-parallel-impactor,site method 7,respirable dust and quartz,,2026-11-30,ROT-1
TF48A-4,TF48A,,PUMP-03,weld-cowl,site method 9,welding fume,,2026-11-30,MASS-1
"<b>&""5"" Größe",TF48A,,PUMP-04,weld-cowl,site method 9,welding fume,,2026-11-30,VOL-1
TF48A-B1,TF48A,blank,,respirable-parallel-impactor,site method 7,respirable dust and quartz,C-4809,2026-11-30,
END

# sides FILE EXPECTED WIDTH HEIGHT OPTION…: a PDF of so many pages of that size in points.
sides() {
  local file=$scratch/$1.pdf pages size
  "$program" sheet "$scratch/book" --as-of 2026-11-30 --out "$file" "${@:5}" >"$scratch/said" 2>&1 || { cat "$scratch/said"; fail "$1"; }
  pages=$(pdfinfo "$file" | sed -n 's/^Pages: *//p')
  size=$(pdfinfo "$file" | sed -n 's/^Page size: *\([0-9]*\)[.0-9]* x \([0-9]*\).*/\1 \2/p')
  [ "$pages" = "$2" ] || fail "$1 has $pages pages, not $2"
  [ "$size" = "$3 $4" ] || fail "$1 is of size $size, not $3 $4"
}
sides a4 5 594 841 --batch TF48A --humidity '40 %'
sides letter 5 612 792 --batch TF48A --humidity '40 %' --paper letter
sides two-a4 5 594 841 --batch TF48A --calibrator ROT-1 --calibrator MASS-1
sides two-letter 5 612 792 --batch TF48A --calibrator ROT-1 --calibrator MASS-1 --paper letter
sides demo 7 612 792 --batch ST46C --paper letter --calibrator ROT-1

# What a scanner reads from the paper, at the grain of a cheap photocopy.
pdftoppm -r 150 -gray "$scratch/a4.pdf" "$scratch/paper"
zbarimg --quiet --raw "$scratch"/paper-*.pgm | sort -u >"$scratch/read"
printf '%s\n' PUMP-01 PUMP-02 PUMP-03 PUMP-04 TF48A-1 TF48A-2 TF48A-3 TF48A-4 TF48A-B1 '<b>&"5" Größe' | sort -u >"$scratch/wanted"
diff "$scratch/wanted" "$scratch/read" || fail "codes read from the paper"

# labels SIZE COLUMNS LEFT TOP ACROSS DOWN WIDTH HEIGHT (mm): each of the 14 names is on a label of its own, where the
# sheet has one, and a scanner that is held to it reads it.
labels() {
  "$program" labels docs/demo --batch TF45A --of both --size "$1" --out "$scratch/labels.pdf" >"$scratch/said" 2>&1 || { cat "$scratch/said"; fail "labels $1"; }
  : >"$scratch/read"
  local i x y w h
  for ((i = 0; i < 14; i++)); do
    read -r x y w h < <(awk -v i="$i" -v c="$2" -v l="$3" -v t="$4" -v a="$5" -v d="$6" -v w="$7" -v h="$8" \
      'BEGIN { k = 300 / 25.4; printf "%d %d %d %d\n", k * (l + i % c * a), k * (t + int(i / c) * d), k * w, k * h }')
    pdftoppm -r 300 -gray -singlefile -x "$x" -y "$y" -W "$w" -H "$h" "$scratch/labels.pdf" "$scratch/label"
    zbarimg --quiet --raw "$scratch/label.pgm" >>"$scratch/read" || true
  done
  [ "$(sort -u "$scratch/read" | wc -l)" -eq 14 ] && [ "$(wc -l <"$scratch/read")" -eq 14 ] || { cat "$scratch/read"; fail "labels of $1"; }
}
labels 63.5x38.1 3 7.2 15.15 66 38.1 63.5 38.1
labels 38.1x21.2 5 4.65 10.7 40.6 21.2 38.1 21.2
labels 66.7x25.4 3 4.7625 12.7 69.85 25.4 66.675 25.4

# On the paper: the words, whatever is on the page.
pdftotext -layout "$scratch/a4.pdf" "$scratch/words"
for words in 'Readings, with the sampler in line' 'read at the centre of the float' 'does not replace the sampling method' '2.004'; do
  grep -q -- "$words" "$scratch/words" || fail "the paper lacks: $words"
done

[ "$failures" -eq 0 ] && printf 'field sheets are as they should be\n'
exit "$failures"
