#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The figures of docs/mass.md, in its tables and its words, are those that SciPy works out.
set -euo pipefail
exec /usr/bin/python3 tests/docs/mass_page.py docs/mass.md
