#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The program's version is that of the change log's first entry, so that a changed figure can be looked up there.
set -euo pipefail
program=$1
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
version=$("$program" --version)
newest=$(grep -m1 '^## ' docs/CHANGELOG.md)
if [[ $newest != "## ${version#driftwarden }, "* ]]; then
  printf '%s, but the change log begins with "%s"\n' "$version" "$newest"
  exit 1
fi
printf 'the change log begins with %s\n' "$version"
