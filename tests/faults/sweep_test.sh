#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# A fixed sample of failing calls, failing allocations and ended runs over every command that writes; the long form is
# long_sweep.sh.
set -euo pipefail
# A build under sanitizers can't have another library put before its own; the release program is the same source.
program=${DRIFTWARDEN_OTHER_BUILD:-$1}
sweep() { /usr/bin/python3 tests/faults/sweep.py "$program" "$DRIFTWARDEN_FAULT_SHIM" "$@"; }

sweep --sample 3 --kinds open,read,write,fsync,rename,mmap,close,mkdir,unlink,start
sweep --sample 15 --kinds allocate
