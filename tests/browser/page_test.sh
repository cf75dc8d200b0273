#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# page_test.sh PROGRAM: the page that is a program, opened from a file in a real browser and used as a person would. Exit
# status 77 where it was not built (cmake --preset page && cmake --build --preset page).
set -euo pipefail
program=$(realpath "$1")
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
page=build/page/driftwarden.html
[ -e "$page" ] || { printf 'no %s: the page was not built here\n' "$page"; exit 77; }
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
AXE=${AXE-$root/build/axe/node_modules/axe-core/axe.min.js} /usr/bin/python3 -B tests/browser/page_pages.py "$program" "$page" "$scratch"
