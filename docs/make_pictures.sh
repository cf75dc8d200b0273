#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# make_pictures.sh PROGRAM: draws the pictures of the manual anew from the demo book: the charts, always the same bytes, and
# the top of the review page as the browser of the package chromium shows it.
# Run from the top of the checkout: bash docs/make_pictures.sh build/dev/driftwarden
set -euo pipefail
program=${1:?the path of the program is missing}
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
drawn=$(mktemp -d)
trap 'rm -rf "$drawn"' EXIT

for theme in light dark print; do
  "$program" history "$root/docs/demo" --as-of 2026-11-16 --theme "$theme" --out "$drawn/$theme" >"$drawn/said"
done
mkdir -p "$root/docs/pictures"
cp "$drawn"/light/{fleet-pumps,fleet-calibrators,PUMP-04.pre-flow-deviation,PUMP-07.drift,VOL-1.as-found-error,ROT-2.calibration-points}.svg \
  "$root/docs/pictures/"
for theme in dark print; do
  cp "$drawn/$theme/PUMP-04.pre-flow-deviation.svg" "$root/docs/pictures/PUMP-04.pre-flow-deviation.$theme.svg"
done

"$program" explain "$root/docs/demo" TF44A-6 --charts "$drawn/mass" >"$drawn/said" || [ $? -eq 1 ]
cp "$drawn"/mass/TF44A-6.{penetration,mass-error}.svg "$root/docs/pictures/"

"$program" sheet "$root/docs/demo" --as-of 2026-11-16 --batch TF45A --out "$drawn/sheet.pdf" >"$drawn/said"
pdftoppm -r 90 -f 1 -l 1 -png -singlefile "$drawn/sheet.pdf" "$root/docs/pictures/field-sheet"
DRIFTWARDEN_KEEP_PICTURES=$drawn bash "$root/tests/browser/form_test.sh" "$(realpath "$program")" >"$drawn/said"
cp "$drawn/form.png" "$root/docs/pictures/form.png"
if [ -e "$root/build/page/driftwarden.html" ]; then  # docs/page.md says how it is built
  DRIFTWARDEN_KEEP_PICTURES=$drawn bash "$root/tests/browser/page_test.sh" "$(realpath "$program")" >"$drawn/said"
  cp "$drawn"/{page,page-form}.png "$root/docs/pictures/"
fi
"$program" review "$root/docs/demo" --as-of 2026-11-16 --out "$drawn/review.html" >"$drawn/said" || [ $? -eq 1 ]
sandbox=()
[ "$(id -u)" -ne 0 ] || sandbox=(--no-sandbox)  # it has none for root
chromium --headless "${sandbox[@]}" --disable-gpu --hide-scrollbars --window-size=1100,1300 --user-data-dir="$drawn/profile" \
  --screenshot="$root/docs/pictures/review.png" "file://$drawn/review.html" 2>"$drawn/said"
