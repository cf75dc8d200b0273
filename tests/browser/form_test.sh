#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# form_test.sh PROGRAM: a batch of six is typed into its form on a telephone, closed halfway, opened again, finished, received
# and screened: the verdicts are those of the same records written by hand.
set -euo pipefail
program=$1
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
/usr/bin/python3 tests/browser/form_pages.py "$program" "$scratch"
