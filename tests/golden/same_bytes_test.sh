#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# same_bytes_test.sh PROGRAM: the same book gives the same bytes on every machine. What the program prints about the
# demo book is compared between clocks and locales, between numbers of threads, and, where DRIFTWARDEN_OTHER_BUILD
# names a second program, between two compilations.
set -euo pipefail
program=$1
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
. tests/support/locale.sh
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
failures=0
compared=0

if [ -z "${LOCPATH-}" ]; then
  make_comma_locale "$scratch/locale"
  export LOCPATH=$scratch/locale
fi
has_comma_locale "$LOCPATH" || { printf 'FAILED: no locale with a decimal comma in %s\n' "$LOCPATH"; exit 1; }

book=docs/demo
as_of='--as-of 2026-11-16'
commands=("check $book")
for format in table csv json; do commands+=("screen $book $as_of --format $format"); done
commands+=("review $book $as_of --out /dev/stdout")
# A void sample, one that was stopped in the hour that came twice, one read by a rotameter, one with an overlap.
for sample in TF46B-1 ST44C-3 TF42A-1 TF42B-2; do commands+=("explain $book $sample $as_of"); done

# print FILE ZONE LOCALE THREADS PROGRAM COMMAND: both streams and the status of a command.
print() {
  local file=$1 zone=$2 locale=$3 threads=$4 program=$5 status=0
  local -a words
  read -ra words <<<"$6"
  TZ=$zone LC_ALL=$locale "$program" "${words[@]}" --threads "$threads" </dev/null >"$file" 2>"$file.remarks" ||
    status=$?
  { printf 'remarks:\n'; cat "$file.remarks"; printf 'status %d\n' "$status"; } >>"$file"
}

for command in "${commands[@]}"; do
  print "$scratch/first" UTC C 1 "$program" "$command"
  if ! grep -qxE 'status (0|1)' "$scratch/first"; then
    printf 'FAILED: %s ended with %s\n' "$command" "$(tail -n 1 "$scratch/first")"
    failures=$((failures + 1))
    continue
  fi
  while read -r zone locale threads other; do
    [ -n "$zone" ] || continue
    print "$scratch/other" "$zone" "$locale" "$threads" "${other:-$program}" "$command"
    compared=$((compared + 1))
    cmp -s "$scratch/first" "$scratch/other" && continue
    printf 'FAILED: %s differs with TZ=%s LC_ALL=%s --threads %s %s\n' "$command" "$zone" "$locale" "$threads" "$other"
    diff "$scratch/first" "$scratch/other" | head -n 5 || true
    failures=$((failures + 1))
  done <<END
UTC C 2
UTC C 3
Asia/Kathmandu $comma_locale 1
Asia/Kathmandu $comma_locale 3
America/Denver C.UTF-8 2
${DRIFTWARDEN_OTHER_BUILD:+UTC C 1 $DRIFTWARDEN_OTHER_BUILD}
${DRIFTWARDEN_OTHER_BUILD:+Asia/Kathmandu $comma_locale 2 $DRIFTWARDEN_OTHER_BUILD}
END
done
printf '%d outputs compared, %d differ\n' "$compared" "$failures"
exit $((failures > 0))
