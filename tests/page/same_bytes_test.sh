#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# same_bytes_test.sh PROGRAM: the page gives the program's bytes, over all books of the repository (compare.js). Where
# DRIFTWARDEN_OTHER_BUILD names a quicker program it is held against that one. Exit status 77 where no page was built.
set -euo pipefail
program=${DRIFTWARDEN_OTHER_BUILD:-$1}
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
command -v node >/dev/null || { printf 'no node: the package emscripten brings it\n'; exit 77; }
exec node "$root/tests/page/compare.js" "$(realpath "$program")" "$root/build/page"
