#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# evidence_test.sh PROGRAM: an evidence package of the demo, held to others' tools: sha512sum, openssl, and a check of
# bags by the words of the RFC; then judged anew from a copy of it alone, and with something changed in each file.
set -euo pipefail
program=$(realpath "$1")
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
failures=0

# expect NAME STATUS COMMAND...: runs a command; what it says is shown when its status is another.
expect() {
  local name=$1 expected=$2 status=0
  shift 2
  "$@" >"$scratch/said" 2>&1 </dev/null || status=$?
  [ "$status" -eq "$expected" ] && return
  printf 'FAILED: %s: status %d, expected %d\n' "$name" "$status" "$expected"
  tail -n 20 "$scratch/said"
  failures=$((failures + 1))
}

python=/usr/bin/python3
openssl genpkey -algorithm ed25519 -out "$scratch/signer.key" 2>/dev/null
openssl pkey -in "$scratch/signer.key" -pubout -out "$scratch/signer.pem"
openssl genpkey -algorithm ed25519 2>/dev/null | openssl pkey -pubout -out "$scratch/other.pem"

cd "$root"
as_of='--as-of 2026-11-16'
# Both hold void samples: status 1, as of screen.
# shellcheck disable=SC2086  # an option and its value
expect 'the demo is packed' 1 "$program" evidence docs/demo $as_of --out "$scratch/made/whole"
# shellcheck disable=SC2086
expect 'a batch is packed and signed' 1 \
  "$program" evidence docs/demo --batch TF46B $as_of --sign "$scratch/signer.key" --out "$scratch/made/batch"
mv "$scratch/made" "$scratch/moved"  # nothing may lead back
whole=$scratch/moved/whole
batch=$scratch/moved/batch

for bag in "$whole" "$batch"; do
  for manifest in manifest-sha512.txt tagmanifest-sha512.txt; do
    expect "sha512sum accepts $manifest" 0 env -C "$bag" sha512sum -c --strict --quiet "$manifest"
  done
  expect 'a bag by the RFC' 0 "$python" tests/golden/bagit_by_the_rfc.py "$bag"
  expect 'verified' 0 "$program" verify "$bag"
done
expect 'the signature, by openssl' 0 openssl pkeyutl -verify -rawin -pubin -inkey "$scratch/signer.pem" \
  -sigfile "$batch/signature.ed25519" -in "$batch/tagmanifest-sha512.txt"
expect 'not by another key' 1 openssl pkeyutl -verify -rawin -pubin -inkey "$scratch/other.pem" \
  -sigfile "$batch/signature.ed25519" -in "$batch/tagmanifest-sha512.txt"
expect 'the signature, by us' 0 "$program" verify "$batch" --key "$scratch/signer.pem"
expect 'not by another key, by us' 1 "$program" verify "$batch" --key "$scratch/other.pem"
for file in $(cd docs/demo && find book.toml house.toml ./*.csv readings samples -type f ! -name 'planted*'); do
  expect "$file is packed byte for byte" 0 cmp "docs/demo/$file" "$batch/data/book/$file"
done
[ "$(find "$batch/data/charts" -name '*.svg' | wc -l)" -gt 5 ] || { echo 'FAILED: no charts'; failures=$((failures + 1)); }

# One byte of each file of the signed batch: found by us, and (but for the files that only the signature covers) by the
# RFC's words.
files=0
while IFS= read -r file; do
  files=$((files + 1))
  cp "$file" "$scratch/kept"
  size=$(stat -c %s "$file")
  "$python" - "$file" $((size * 7 / 11)) <<'END'
import sys
name, at = sys.argv[1], int(sys.argv[2])
data = bytearray(open(name, "rb").read())
data[at] ^= 1
open(name, "wb").write(data)
END
  expect "a byte of ${file#"$batch/"} changed" 1 "$program" verify "$batch"
  cp "$scratch/kept" "$file"
done < <(find "$batch" -maxdepth 1 -type f; find "$batch/data" -type f | sort | awk 'NR % 5 == 1')
expect 'sound again' 0 "$program" verify "$batch" --key "$scratch/signer.pem"
printf '%d files changed one after another\n' "$files"

"$python" tests/golden/evidence_killed.py "$program" tests/golden/check-values 200 || failures=$((failures + 1))
exit $((failures > 0))
