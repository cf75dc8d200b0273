#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# ended_early_test.sh PROGRAM: whatever ends a command early, or leaves it without room, its output is whole or not there.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
exec /usr/bin/python3 tests/golden/ended_early.py "$(realpath "$1")" docs/demo 12
