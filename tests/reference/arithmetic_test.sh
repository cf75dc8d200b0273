#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# arithmetic_test.sh [PROGRAM [COUNT]]: the functions behind all figures give the same bits with every compiler, at every
# level of optimising, with and without instructions for a fused multiplication and addition, and on other processors.
# What is not on this machine is left out and said: clang (clang), ARM (g++-aarch64-linux-gnu and qemu-user-static),
# 32 bits (g++-i686-linux-gnu). The program is not run. COUNT arguments of each function (1000); for a long search say more.
set -euo pipefail
count=${2:-1000}
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
failures=0
compared=0

# Boost alone of all that lies under /usr/include: the rest of it is of this machine's processor.
mkdir "$scratch/include"
ln -s /usr/include/boost "$scratch/include/boost"

# dump NAME RUNNER COMPILER OPTION...: compiles the two rooms and runs them.
dump() {
  local name=$1 runner=$2
  shift 2
  "$@" -std=c++20 -ffp-contract=off -Iinclude -Isrc -isystem "$scratch/include" -o "$scratch/$name" \
    tests/reference/arithmetic_dump.cpp src/quantity/elementary.cpp src/statistics/special_functions.cpp
  $runner "$scratch/$name" "$count" >"$scratch/$name.txt"
}

# same NAME RUNNER COMPILER OPTION...: the text is that of the first.
same() {
  local name=$1
  if ! command -v "${2:-$3}" >/dev/null || ! printf '#include <cmath>\nint main() {}' | "${@:3}" -x c++ -o /dev/null - 2>/dev/null; then
    printf 'left out: %s, which this machine cannot compile or run\n' "$name"
    return
  fi
  dump "$@"
  compared=$((compared + 1))
  cmp -s "$scratch/first.txt" "$scratch/$name.txt" && return
  printf 'FAILED: %s differs\n' "$name"
  diff "$scratch/first.txt" "$scratch/$name.txt" | head -n 6 || true
  failures=$((failures + 1))
}

dump first '' g++ -O2
functions=$(grep -c ' print("' tests/reference/arithmetic_dump.cpp)
[ "$(wc -l <"$scratch/first.txt")" -eq $((functions * count)) ] || { printf 'FAILED: %d lines\n' "$(wc -l <"$scratch/first.txt")"; exit 1; }
same g++-O0 '' g++ -O0
if grep -qw fma /proc/cpuinfo; then same g++-O3-fma '' g++ -O3 -mfma -mavx2; fi
same clang '' clang++ -O2
same arm64 qemu-aarch64-static aarch64-linux-gnu-g++ -O2 -static -Wno-psabi
same x86-32 '' i686-linux-gnu-g++ -O2 -static -msse2 -mfpmath=sse
printf '%d values of each of %d machines beside the first; %d differ\n' "$count" "$compared" "$failures"
exit $((failures > 0))
