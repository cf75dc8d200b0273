#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Builds and runs every test. Run as: bash tests/run.sh
#
# Installs the Debian packages that are lacking (needs root or sudo then, and the network; neither later), builds the
# program as a release and as a page, builds everything again with address and undefined-behaviour sanitizers, and runs all tests with
# those, on a clock that is not UTC and in a locale with a decimal comma. Ends with the test runner's own summary; the
# exit status is not 0 if anything failed.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$root"
. tests/support/install.sh
. tests/support/program.sh
. tests/support/locale.sh

zone=Asia/Kathmandu  # +05:45: neither UTC nor a whole hour

install_missing "${build_packages[@]}" "${test_packages[@]}"
# The accessibility checker of tests/browser, where npm can fetch it; that test says so where it has none.
if [ ! -e build/axe/node_modules/axe-core/axe.min.js ] && command -v npm >/dev/null; then
  npm install --prefix build/axe --ignore-scripts --no-audit --no-fund --fetch-retries=0 --fetch-timeout=20000 axe-core@4.14.1 >&2 || true
fi
make_comma_locale "$root/build/locale"
if [ "$(TZ=$zone date -d 2026-01-01 +%z)" != +0545 ]; then
  printf 'error: the system has no zone file for %s\n' "$zone" >&2
  exit 1
fi

release_program=$(build_program "$root")
cmake --preset page
cmake --build --preset page
cmake --preset asan
cmake --build --preset asan

export TZ=$zone LOCPATH=$root/build/locale LC_ALL=$comma_locale
# A program from another compilation, for the test that compares the bytes of both.
export DRIFTWARDEN_OTHER_BUILD=$release_program
exec ctest --preset asan
