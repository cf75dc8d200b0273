#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Measures how fast a large book is judged, beside a plain awk program. Run as: bash tests/bench/run.sh [SAMPLES [ROUNDS]]
#
# Installs the Debian packages that are lacking, builds the program as a release and the benchmarks beside it, makes the
# books under build/bench/books (10 readings a sample; 1,000,000 samples are 0.7 GB, and need some 8 GB in all), and prints
# tables. It reports; nothing is held to a time. The small benchmarks of single rooms come last.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
. tests/support/install.sh

samples=${1:-1000000}
rounds=${2:-3}

install_missing "${build_packages[@]}" libbenchmark-dev mawk python3
cmake --preset bench
cmake --build --preset bench

/usr/bin/python3 tests/bench/whole.py build/bench/driftwarden build/bench/tests/bench/make_book build/bench/books \
  "$samples" "$rounds"
printf '\n'
build/bench/tests/bench/rooms_bench
