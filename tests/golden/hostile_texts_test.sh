#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# hostile_texts_test.sh PROGRAM: nothing that a text of the book's would do to a terminal, a page or a picture comes out.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
exec /usr/bin/python3 tests/golden/hostile_texts.py "$(realpath "$1")" docs/demo
