#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# No command asks for the network or starts a shell, and what a command starts has an empty home and no network.
set -euo pipefail
# A build under sanitizers cannot be traced; the release program is the same source.
exec /usr/bin/python3 tests/golden/no_network.py "$(realpath "${DRIFTWARDEN_OTHER_BUILD:-$1}")" docs/demo
