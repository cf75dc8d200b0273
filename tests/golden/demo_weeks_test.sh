#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# demo_weeks_test.sh PROGRAM: what the demo's README says of each week's review, held to the reviews.
set -euo pipefail
exec python3 tests/golden/demo_weeks.py "$(realpath "$1")" docs/demo
