#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# pictures_test.sh PROGRAM: the page draws its pictures as gnuplot draws the program's (pictures.js). Exit status 77 where
# no page was built, or there is no gnuplot.
set -euo pipefail
program=${DRIFTWARDEN_OTHER_BUILD:-$1}
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
command -v node >/dev/null || { printf 'no node: the package emscripten brings it\n'; exit 77; }
exec node "$root/tests/page/pictures.js" "$(realpath "$program")" "$root/build/page"
