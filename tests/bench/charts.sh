#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# charts.sh PROGRAM [INSTRUMENTS [POINTS]]: how long the charts of many pumps take (500 with 120 checks each, unless
# said otherwise): with one gnuplot process as `history` draws them, with a process for each chart, and with matplotlib
# drawing the same panels, if python3-matplotlib is installed. Prints a table for docs/history.md. CPU seconds say more
# than seconds on a machine that has other things to do. The book is invented.
set -euo pipefail
program=$(realpath "${1:?the path of the program is missing}")
instruments=${2:-500}
points=${3:-120}
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
gnuplot=$(command -v gnuplot)
export TIMEFORMAT='%R %U %S'

/usr/bin/python3 "$here/book_of_pumps.py" "$scratch/book" "$instruments" "$points"

# A gnuplot that keeps the script it is given, and then draws nothing: what remains is the program's own time.
mkdir "$scratch/keeps"
cat >"$scratch/keeps/gnuplot" <<END
#!/bin/sh
cp "\$1" "$scratch/charts.gp"
exit 1
END
chmod +x "$scratch/keeps/gnuplot"

# row NAME TIMES: a line of the table.
row() {
  awk -v name="$1" -v n="$pictures" '{ printf "| %s | %.1f s | %.1f s | %.0f ms |\n", name, $1, $2 + $3, 1000 * ($2 + $3) / n }' <<<"$2"
}

reading=$({ time PATH="$scratch/keeps:$PATH" "$program" history "$scratch/book" --as-of 2099-12-31 --out "$scratch/data" >/dev/null 2>&1 || true; } 2>&1)
pictures=$(grep -c '^set output ' "$scratch/charts.gp")
printf '%d pumps, %d checks each: %d pictures, SVG; %s\n\n' "$instruments" "$points" "$pictures" "$("$gnuplot" --version)"
printf '| | time | CPU time | of which a picture |\n|---|---|---|---|\n'
row 'reading, judging, charts and data files, without drawing' "$reading"

mkdir "$scratch/one" && cp "$scratch/charts.gp" "$scratch/one/"
row 'drawing, one gnuplot process (as `history` does)' "$( { time (cd "$scratch/one" && "$gnuplot" charts.gp); } 2>&1)"

mkdir "$scratch/many"
awk -v folder="$scratch/many" '/^reset$/ { close(file); file = sprintf("%s/%06d.gp", folder, ++n) } { print >file }' "$scratch/charts.gp"
row 'drawing, one gnuplot process a picture' "$( { time (cd "$scratch/many" && for script in *.gp; do "$gnuplot" "$script"; done); } 2>&1)"

for drawn in one many; do
  found=$(find "$scratch/$drawn" -name '*.svg' | wc -l)
  [ "$found" -eq "$pictures" ] || { printf 'FAILED: %d of %d pictures drawn\n' "$found" "$pictures" >&2; exit 1; }
done

if /usr/bin/python3 -c 'import matplotlib' 2>/dev/null; then
  version=$(/usr/bin/python3 -c 'import matplotlib; print(matplotlib.__version__)')
  mkdir "$scratch/python"
  row "drawing the same panels, matplotlib $version, one process" \
    "$( { time /usr/bin/python3 "$here/charts_matplotlib.py" "$scratch/data/history.json" "$scratch/python"; } 2>&1)"
else
  printf '\nmatplotlib is not installed (python3-matplotlib): left out\n'
fi
