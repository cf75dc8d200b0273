#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# random_books_test.sh PROGRAM [FIRST COUNT]: random books, every figure and verdict held against an independent working
# of them in Python (tests/golden/random_books/oracle.py). Without more words a fixed choice of seeds; for a long search
# say where to begin and how many: random_books_test.sh build/dev/driftwarden 1000 5000
set -euo pipefail
program=$(realpath "$1")
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
export PYTHONDONTWRITEBYTECODE=1
exec /usr/bin/python3 "$root/tests/golden/random_books/random_books.py" "$program" "${2:-1}" "${3:-40}"
