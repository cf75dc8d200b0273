#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# package_test.sh PROGRAM: the Debian package that `cpack` makes of a release (DRIFTWARDEN_OTHER_BUILD names one) holds
# what it should, names what it needs, and, where lintian is installed, has nothing that lintian finds.
set -euo pipefail
[ -n "${DRIFTWARDEN_OTHER_BUILD-}" ] || { echo 'only a release is packed'; exit 77; }
command -v dpkg-shlibdeps >/dev/null || { echo 'dpkg-shlibdeps is not installed'; exit 77; }
build=$(dirname "$DRIFTWARDEN_OTHER_BUILD")
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

(cd "$build" && cpack -B "$scratch/out" >"$scratch/log" 2>&1) || { cat "$scratch/log"; exit 1; }
package=$(find "$scratch/out" -maxdepth 1 -name 'driftwarden_*.deb')
dpkg-deb --contents "$package" >"$scratch/contents"
dpkg-deb --field "$package" >"$scratch/fields"
failures=0
# expect WHAT PATTERN FILE
expect() { grep -qE "$2" "$3" || { printf 'FAILED: %s\n' "$1"; sed 's/^/  /' "$3"; failures=$((failures + 1)); }; }
expect 'the program' ' \./usr/bin/driftwarden$' "$scratch/contents"
expect 'its rule packs' ' \./usr/share/driftwarden/rules/common-practice.toml$' "$scratch/contents"
expect 'its manual pages, packed' ' \./usr/share/man/man1/driftwarden-screen.1.gz$' "$scratch/contents"
expect 'no header of the engine' '^$' <(grep -c '\.hpp$' "$scratch/contents" | sed 's/^0$//')
expect 'what it needs' '^Depends:.*libc6 .*libssl3' "$scratch/fields"
expect 'what draws its charts' '^Recommends: gnuplot-nox' "$scratch/fields"
if command -v lintian >/dev/null; then
  lintian --fail-on error,warning "$package" || failures=$((failures + 1))
else
  echo 'lintian is not installed: not checked by it'
fi
[ "$failures" -eq 0 ]
