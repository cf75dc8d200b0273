#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# commands_test.sh PROGRAM: the commands that the manual shows print what the manual says.
# When an output changes on purpose: /usr/bin/python3 tests/docs/commands.py PROGRAM --write, and read the difference.
set -euo pipefail
program=$1
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
export PYTHONDONTWRITEBYTECODE=1
/usr/bin/python3 "$here/commands_test.py"
exec /usr/bin/python3 "$here/commands.py" "$program"
