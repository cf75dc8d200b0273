#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Every link of the manual to a file of this project leads somewhere, and every page is in the index, docs/README.md.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
checked=0
failures=0

# "line target" for each link of a document, without those to the web and those within the page.
links_in() {
  awk '{
    rest = $0
    while (match(rest, /\]\([^)]+\)/)) {
      target = substr(rest, RSTART + 2, RLENGTH - 3)
      rest = substr(rest, RSTART + RLENGTH)
      sub(/#.*/, "", target)
      if (target != "" && target !~ /^[a-z]+:/) print FNR, target
    }
  }' "$1"
}

while read -r document; do
  while read -r line target; do
    checked=$((checked + 1))
    if [ ! -e "$(dirname "$document")/$target" ]; then
      printf '%s:%s: leads to %s, which is not there\n' "$document" "$line" "$target"
      failures=$((failures + 1))
    fi
  done < <(links_in "$document")
done < <(find ./*.md docs rules tests -name '*.md' | LC_ALL=C sort)

for page in docs/*.md; do
  if [ "$page" != docs/README.md ] && ! grep -q "(${page#docs/})" docs/README.md; then
    printf '%s is not in the index, docs/README.md\n' "$page"
    failures=$((failures + 1))
  fi
done

printf '%d links, %d faults\n' "$checked" "$failures"
[ "$checked" -gt 0 ] && [ "$failures" -eq 0 ]
