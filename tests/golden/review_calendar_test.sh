#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# review_calendar_test.sh PROGRAM: the calendar of a review, read by another library.
set -euo pipefail
exec /usr/bin/python3 tests/golden/review_calendar.py "$(realpath "$1")" docs/demo
