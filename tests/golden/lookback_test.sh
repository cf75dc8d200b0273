#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# lookback_test.sh PROGRAM: `lookback docs/demo ROT-2` names exactly the planted samples, and its figures are those of an
# independent recomputation. That a wrong figure and a sample too few would be noticed is tried, too.
set -euo pipefail
program=$1
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
export PYTHONDONTWRITEBYTECODE=1
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

status=0
"$program" lookback docs/demo ROT-2 --format json >"$scratch/lookback.json" 2>"$scratch/remarks" || status=$?
[ "$status" -eq 1 ] || { cat "$scratch/remarks"; printf 'FAILED: lookback ended with %d, not 1\n' "$status"; exit 1; }
"$program" screen docs/demo --format json >"$scratch/screened.json" 2>/dev/null || [ $? -eq 1 ]
recompute() { LC_ALL=C.UTF-8 /usr/bin/python3 tests/golden/lookback_recomputed.py "$1" "$scratch/screened.json"; }
recompute "$scratch/lookback.json"

/usr/bin/python3 - "$scratch" <<'END'
import json, sys
scratch = sys.argv[1]
lookback = json.load(open(scratch + "/lookback.json", encoding="utf-8"))
lookback["samples"][3]["linear"]["volume_l"] *= 1 + 1e-8
json.dump(lookback, open(scratch + "/wrong.json", "w", encoding="utf-8"))
lookback = json.load(open(scratch + "/lookback.json", encoding="utf-8"))
del lookback["samples"][0]
json.dump(lookback, open(scratch + "/fewer.json", "w", encoding="utf-8"))
END
for spoilt in wrong fewer; do
  if recompute "$scratch/$spoilt.json" >"$scratch/said"; then
    printf 'FAILED: %s was not noticed\n' "$spoilt"
    exit 1
  fi
done
