#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# installed_test.sh PROGRAM: what `cmake --install` lays down works from wherever it was moved to, leans on nothing of
# the sources, and, as a release (DRIFTWARDEN_OTHER_BUILD names one), is hardened and holds no path of the build.
set -euo pipefail
program=${DRIFTWARDEN_OTHER_BUILD:-$1}
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
build=$(dirname "$program")
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
failures=0
checked=0
# expect WHAT COMMAND...: the command has to succeed.
expect() {
  local what=$1
  shift
  checked=$((checked + 1))
  "$@" >"$scratch/out" 2>&1 && return
  printf 'FAILED: %s\n' "$what"
  sed 's/^/  /' "$scratch/out" | head -20
  failures=$((failures + 1))
}
lacks() { ! grep -qF "$@"; }

DESTDIR=$scratch/stage cmake --install "$build" --prefix /opt/air >"$scratch/log"
mv "$scratch/stage/opt/air" "$scratch/moved"
installed=$scratch/moved/bin/driftwarden
packs=$scratch/moved/share/driftwarden/rules
expect 'no file of the build lies beside the program' test ! -e "$scratch/moved/bin/driftwarden.sources"
expect 'the moved program lists its packs' "$installed" rules list
expect 'as many as there are' test "$(grep -c . "$scratch/out")" -ge "$(find "$packs" -name '*.toml' | wc -l)"
cp -r "$root/docs/demo" "$scratch/demo"
"$program" screen "$scratch/demo" --as-of 2026-11-16 --format csv >"$scratch/built.csv" || true
"$installed" screen "$scratch/demo" --as-of 2026-11-16 --format csv >"$scratch/installed.csv" || true
expect 'it judges as the built one does' cmp "$scratch/built.csv" "$scratch/installed.csv"
mv "$packs" "$packs.away"
expect 'without its packs it does not go to the sources' lacks 'common-practice' <("$installed" rules list 2>&1 || true)
mv "$packs.away" "$packs"

if [ -n "${DRIFTWARDEN_OTHER_BUILD-}" ]; then
  expect 'no path of the sources is in the program' lacks "$root" "$installed"
  readelf -hldW "$installed" >"$scratch/elf"
  expect 'position independent' grep -q 'DYN (Position-Independent' "$scratch/elf"
  expect 'relocations are read-only' grep -q GNU_RELRO "$scratch/elf"
  expect 'bound at the start' grep -qE 'BIND_NOW|FLAGS_1.*NOW' "$scratch/elf"
  readelf -sW --dyn-syms "$installed" >"$scratch/symbols"
  expect 'the stack is guarded' grep -q __stack_chk_fail "$scratch/symbols"
  expect 'copies are checked' grep -qE '__(mem|str|read|fd|sn?print)[a-z]*_chk' "$scratch/symbols"
fi
printf '%d checked, %d failed\n' "$checked" "$failures"
[ "$failures" -eq 0 ]
