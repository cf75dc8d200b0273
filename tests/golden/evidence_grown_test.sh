#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Rows that are added while a package is made don't end it, and the package is of one moment.
set -euo pipefail
exec /usr/bin/python3 tests/golden/evidence_grown.py "$(realpath "$1")" docs/demo 2
