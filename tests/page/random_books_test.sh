#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# random_books_test.sh PROGRAM [COUNT]: the page gives the program's bytes over random books (compare.js). Where
# DRIFTWARDEN_OTHER_BUILD names a quicker program it is held against that one. Exit status 77 where no page was built.
set -euo pipefail
program=${DRIFTWARDEN_OTHER_BUILD:-$1}
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
command -v node >/dev/null || { printf 'no node: the package emscripten brings it\n'; exit 77; }
[ -e "$root/build/page/packed.tar" ] || { printf 'no %s: the page was not built here\n' build/page/packed.tar; exit 77; }
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
/usr/bin/python3 -B "$root/tests/page/random_books.py" "$scratch" "${2:-40}"
node "$root/tests/page/compare.js" "$(realpath "$program")" "$root/build/page" "$scratch"
