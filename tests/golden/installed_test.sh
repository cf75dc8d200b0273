#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# installed_test.sh PROGRAM: what `cmake --install` lays down works from wherever it was moved to, leans on nothing of
# the sources, and, as a release (DRIFTWARDEN_OTHER_BUILD names one), is hardened and holds no path of the build. Other
# programs find the engine there, and a project that has this one in a folder finds it, too.
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
for pack in "$packs"/*.toml; do
  expect "$(basename "$pack" .toml) is listed" grep -qw "$(basename "$pack" .toml)" <("$installed" rules list)
done
cp -r "$root/docs/demo" "$scratch/demo"
"$program" screen "$scratch/demo" --as-of 2026-11-16 --format csv >"$scratch/built.csv" || true
"$installed" screen "$scratch/demo" --as-of 2026-11-16 --format csv >"$scratch/installed.csv" || true
expect 'it judges as the built one does' cmp "$scratch/built.csv" "$scratch/installed.csv"
mv "$packs" "$packs.away"
expect 'without its packs it does not go to the sources' lacks 'common-practice' <("$installed" rules list 2>&1 || true)
mv "$packs.away" "$packs"

# Pages, completion, licences and the engine lie where a system looks for them.
share=$scratch/moved/share
for file in man/man1/driftwarden.1.gz man/man1/driftwarden-screen.1.gz bash-completion/completions/driftwarden \
  zsh/vendor-completions/_driftwarden fish/vendor_completions.d/driftwarden.fish doc/driftwarden/copyright \
  doc/driftwarden/driftwarden.spdx; do
  expect "$file is there" test -s "$share/$file"
done
expect 'one header is laid down' test "$(cd "$scratch/moved/include" && find . -type f)" = ./driftwarden/engine/screened_book.hpp
expect 'what is linked is named with its version' lacks '@' "$share/doc/driftwarden/driftwarden.spdx"
expect 'bash completes the commands' bash -c '
  . "$1/bash-completion/completions/driftwarden"
  COMP_WORDS=("$2" scr) COMP_CWORD=1
  _driftwarden
  test "${COMPREPLY[*]}" = screen' - "$share" "$installed"

flags=
if [ "$(nm "$scratch"/moved/lib*/libdriftwarden.a 2>/dev/null | grep -c __asan)" -gt 0 ]; then flags=-fsanitize=address,undefined; fi
expect 'a consumer of the installed engine is configured' cmake -S "$root/tests/golden/consumer" -B "$scratch/consumer" -G Ninja \
  -DCMAKE_PREFIX_PATH="$scratch/moved" -DCMAKE_CXX_FLAGS="$flags"
expect 'and built' cmake --build "$scratch/consumer"
"$scratch/consumer/consumer" "$scratch/demo" 2026-11-16 >"$scratch/consumed" || true
cut -d, -f1,3 "$scratch/built.csv" | tail -n +2 >"$scratch/judged"
expect 'it judges as the program does' diff "$scratch/judged" "$scratch/consumed"
expect 'a project around this one is configured' cmake -S "$root/tests/golden/subproject" -B "$scratch/whole" -G Ninja \
  -DENGINE_SOURCES="$root"
expect 'and has what it links, and no tests of ours' bash -c '
  ninja -C "$1" -t query consumer | grep -q "engine/libdriftwarden.a" && ! ninja -C "$1" -t targets all | grep -q "_test:"' \
  - "$scratch/whole"

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
