#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# json_schema_test.sh PROGRAM: what the commands print as JSON is what docs/X.schema.json says, by the judgement of a
# validator that is not ours (the Debian package python3-jsonschema).
set -euo pipefail
program=$1
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
failures=0

# print NAME COMMAND…: the document, whatever the verdicts in it.
print() {
  local name=$1 status=0
  shift
  "$program" "$@" >"$scratch/$name" 2>"$scratch/remarks" || status=$?
  if [ "$status" -gt 2 ]; then
    printf 'FAILED: %s ended with status %d\n' "$*" "$status"
    cat "$scratch/remarks"
    failures=$((failures + 1))
  fi
}

# The books with faults fill the lists of problems and of actions; the one given to somebody has rows in actions.csv.
cp -r docs/demo "$scratch/given"
cat >"$scratch/given/actions.csv" <<'CSV'
written,by,action,about,name,who,due,done,note
2026-11-15T09:00,site hygienist,Recalibrate,instrument,VOL-2,workshop,2026-11-20,,
2026-11-15T09:00,site hygienist,Sample again,sample,TF46B-6,second shift,,yes,taken again
2026-11-15T09:00,site hygienist,Weigh the finding,sample,TF44B-2,second shift,,,
CSV
as_of=(--as-of 2026-11-16)
for book in docs/demo docs/demo-typo tests/reference/mass; do
  print "screen-${book//\//-}.json" screen "$book" "${as_of[@]}" --format json
done
for book in docs/demo docs/demo-typo "$scratch/given"; do
  print "review-$(basename "$book").json" review "$book" "${as_of[@]}" --format json
done
for batch in TF42B TF46B; do
  print "custody-$batch.json" custody docs/demo --batch "$batch" "${as_of[@]}" --format json
done
print kit-all.json kit docs/demo "${as_of[@]}" --format json
for kit in K-1 K-2 K-3 'mine, by day'; do
  print "kit-${kit// /-}.json" kit docs/demo --kit "$kit" "${as_of[@]}" --format json
done
dust=tests/reference/packs/nmam_respirable_dust
print ahead-fits.json ahead "$dust" --as-of 2026-02-09 --method 'NMAM 0600' --sampler aluminium-cyclone --target '0.5 mg/m3' \
  --expected '1 mg/m3' --pump pump-1 --samples 60 --format json
print ahead-none.json ahead "$dust" --as-of 2026-02-09 --method 'NMAM 0600' --target '0.05 mg/m3' --format json
print ahead-demo.json ahead docs/demo "${as_of[@]}" --batch TF46A --format json
print lookback-demo.json lookback docs/demo ROT-2 --format json
print lookback-nothing.json lookback docs/demo VOL-1 --format json
print compare-guard.json compare docs/demo "${as_of[@]}" --guard 1 --format json
print compare-rules.json compare docs/demo "${as_of[@]}" --rules common-practice --format json
print risk-demo.json risk docs/demo "${as_of[@]}" --format json
print risk-few.json risk tests/reference/mass "${as_of[@]}" --format json
# Without a path there is no gnuplot: the figures are written all the same.
for book in docs/demo tests/reference/mass; do
  PATH= print nothing history "$book" "${as_of[@]}" --out "$scratch/charts"
  mv "$scratch/charts/history.json" "$scratch/history-${book//\//-}.json"
done

for of in screen review custody kit ahead lookback compare risk history; do
  /usr/bin/python3 tests/golden/json_schema.py "docs/$of.schema.json" "$scratch/$of"-*.json || failures=$((failures + 1))
done
exit $((failures > 0))
