#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# cautions_test.sh PROGRAM: every output of the demo book that leaves the desk has the cautions, word for word as in
# src/verdict/cautions.hpp, and so have the pages of the manual on what people lean on.
set -euo pipefail
program=$1
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
LC_ALL=C.UTF-8 PYTHONDONTWRITEBYTECODE=1 /usr/bin/python3 tests/golden/cautions.py "$program" "$scratch"
