#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# office_test.sh PROGRAM: records as an office keeps them. Before any of it is said, check tells in at most twenty lines
# all that has to be done; when what the lines say is done, the verdicts are those of the clean twin in CSV, and a package
# made of the office's files holds them byte for byte and is verified from them.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
export PYTHONDONTWRITEBYTECODE=1
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
/usr/bin/python3 tests/support/make_office_book.py "$scratch/office" "$scratch/twin"
/usr/bin/python3 tests/golden/office.py "$1" "$scratch"
