#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# budget_recomputed_test.sh PROGRAM: SciPy works out the uncertainties of every sample of the demo book anew, from the
# inputs in the program's JSON, and agrees to 1e-9. That it would notice a difference is tried, too.
set -euo pipefail
program=$1
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
export PYTHONDONTWRITEBYTECODE=1
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

status=0
"$program" screen docs/demo --as-of 2026-11-16 --format json >"$scratch/demo.json" 2>"$scratch/remarks" || status=$?
[ "$status" -le 1 ] || { cat "$scratch/remarks"; printf 'FAILED: the screening ended with %d\n' "$status"; exit 1; }
/usr/bin/python3 tests/golden/budget_recomputed.py "$scratch/demo.json" docs/demo
/usr/bin/python3 tests/golden/flow_between_recomputed.py "$scratch/demo.json" docs/demo

/usr/bin/python3 - "$scratch" <<'END'
import json, sys
book = json.load(open(sys.argv[1] + "/demo.json", encoding="utf-8"))
spoilt = next(sample for sample in book["samples"] if sample["budget"])
spoilt["budget"]["figures"]["volume"]["expanded"] *= 1 + 1e-8
json.dump(book, open(sys.argv[1] + "/spoilt.json", "w", encoding="utf-8"))
END
if /usr/bin/python3 tests/golden/budget_recomputed.py "$scratch/spoilt.json" docs/demo >"$scratch/said"; then
  printf 'FAILED: a figure off by 1e-8 was not noticed\n'
  exit 1
fi

/usr/bin/python3 - "$scratch" <<'END'
import json, sys
book = json.load(open(sys.argv[1] + "/demo.json", encoding="utf-8"))
spoilt = next(sample for sample in book["samples"] if sample["budget"] and sample["budget"]["flow_between"]["earlier_uses"])
next(line for line in spoilt["budget"]["inputs"] if line["source"] == "flow between the checks")["u"] *= 1 + 1e-8
json.dump(book, open(sys.argv[1] + "/spoilt.json", "w", encoding="utf-8"))
END
if /usr/bin/python3 tests/golden/flow_between_recomputed.py "$scratch/spoilt.json" docs/demo >"$scratch/said"; then
  printf 'FAILED: a flow between checks known otherwise by 1e-8 was not noticed\n'
  exit 1
fi
