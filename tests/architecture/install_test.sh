#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Installing what lacks, with stand-ins for dpkg-query, apt-get, sudo and id: nothing is installed here.
# shellcheck disable=SC2016  # the texts are for the stand-ins to expand
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
stand_ins=$scratch/bin
log=$scratch/calls
mkdir "$stand_ins"
for tool in bash env cat; do ln -s "$(command -v "$tool")" "$stand_ins/$tool"; done

# A stand-in that does what its text says. The log and the list of installed packages are in the environment.
stand_in() { printf '#!%s\n%s\n' "$stand_ins/bash" "$2" >"$stand_ins/$1"; chmod +x "$stand_ins/$1"; }
stand_in dpkg-query 'case " $INSTALLED " in *" ${!#} "*) printf "ii ";; *) exit 1;; esac'
stand_in apt-get 'echo "apt-get $*" >>"$LOG"; [ "$1" != "${APT_FAILS_AT-}" ]'
stand_in id 'echo "$USER_NUMBER"'

# run USER_NUMBER INSTALLED PACKAGE...: prints the status; messages and calls are left in files.
run() {
  local user=$1 installed=$2 status=0
  shift 2
  : >"$log"
  PATH=$stand_ins LOG=$log USER_NUMBER=$user INSTALLED=$installed APT_FAILS_AT=${apt_fails_at-} \
    bash -c '. "$1"; shift; install_missing "$@"' - "$root/tests/support/install.sh" "$@" 2>"$scratch/messages" || status=$?
  printf '%s\n' "$status"
}

failures=0
# expect NAME ACTUAL EXPECTED
expect() {
  [ "$2" = "$3" ] && return
  printf 'FAILED: %s\n  expected: %s\n  was:      %s\n' "$1" "$3" "$2"
  failures=$((failures + 1))
}

expect 'all there: status' "$(run 1000 'alpha beta' alpha beta)" 0
expect 'all there: apt-get is not called' "$(cat "$log")" ''
expect 'all there: nothing is said' "$(cat "$scratch/messages")" ''

install_beta='apt-get update
apt-get install -y --no-install-recommends beta'
expect 'root: status' "$(run 0 alpha alpha beta)" 0
expect 'root: only what lacks is installed' "$(cat "$log")" "$install_beta"

expect 'no root, no sudo: status' "$(run 1000 alpha alpha beta)" 1
expect 'no root, no sudo: apt-get is not called' "$(cat "$log")" ''
expect 'no root, no sudo: the message says what lacks' "$(cat "$scratch/messages")" \
  'error: lacking beta; run this as root, install sudo, or let somebody who may run: apt-get install beta'

apt_fails_at=install
expect 'a failing install: status' "$(run 0 alpha alpha beta)" 1
expect 'a failing install: the last message' "$(sed -n '$p' "$scratch/messages")" 'error: could not install beta'
apt_fails_at=update
expect 'a failing update: status' "$(run 0 alpha alpha beta)" 1
expect 'a failing update: nothing is installed' "$(cat "$log")" 'apt-get update'
apt_fails_at=

stand_in sudo 'echo sudo >>"$LOG"; "$@"'
expect 'sudo: status' "$(run 1000 alpha alpha beta)" 0
expect 'sudo: apt-get runs through it' "$(cat "$log")" 'sudo
apt-get update
sudo
apt-get install -y --no-install-recommends beta'

rm "$stand_ins/dpkg-query"
expect 'no Debian: status' "$(run 0 '' alpha)" 1
expect 'no Debian: apt-get is not called' "$(cat "$log")" ''

[ "$failures" -eq 0 ] && printf 'install: all as expected\n'
exit $((failures > 0))
