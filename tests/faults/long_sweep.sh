#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# long_sweep.sh PROGRAM SHIM MINUTES: every call of every command that writes fails once, and ends the run twice; then
# allocations fail, every 97th from the first on, every 97th from the second on, until the time is up. So the lines that
# are there at any moment are of all commands alike. Counts by command and kind of call: long_sweep_counts.py.
set -euo pipefail
until=$(($(date +%s) + 60 * $3))
sweep() { /usr/bin/python3 "$(dirname "${BASH_SOURCE[0]}")/sweep.py" "$@" --minutes $(((until - $(date +%s)) / 60)) || true; }

sweep "$1" "$2" --kinds open,read,write,fsync,rename,mmap,close,mkdir,unlink,start
for ((first = 1; first <= 97 && $(date +%s) < until; ++first)); do
  sweep "$1" "$2" --kinds allocate --stride 97 --first "$first"
done
