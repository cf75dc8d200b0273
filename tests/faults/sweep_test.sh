#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# A fixed sample of failing calls and ended runs over every command that writes; the long form is sweep.py without --sample.
set -euo pipefail
# A build under sanitizers can't have another library put before its own; the release program is the same source.
program=${DRIFTWARDEN_OTHER_BUILD:-$1}
/usr/bin/python3 tests/faults/sweep.py "$program" "$DRIFTWARDEN_FAULT_SHIM" --sample 4 \
  --commands new,screen,screen-json,check,custody,lookback,decide,split,join \
  --kinds open,read,write,fsync,rename,mmap,close,mkdir,unlink
