#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# changed_figures_test.sh PROGRAM: docs/changed-figures.md lists each figure, finding and verdict of the demo that is
# another than version 0.1.0 gave.
set -euo pipefail
program=$(realpath "$1")
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
LC_ALL=C.UTF-8 exec /usr/bin/python3 tests/docs/changed_figures.py "$program"
