#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# altered_packages_test.sh PROGRAM [TIMES [SEED]]: packages altered in every way that altered_packages.py knows, and verified.
# Without more words a fixed sample; the long form is 2000 1.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
keys=$(mktemp -d)
trap 'rm -rf "$keys"' EXIT
openssl genpkey -algorithm ed25519 -out "$keys/signer.key" 2>/dev/null
openssl pkey -in "$keys/signer.key" -pubout -out "$keys/signer.pem"
/usr/bin/python3 tests/golden/altered_packages.py "$(realpath "$1")" docs/demo TF46B "${2:-99}" "${3:-20261116}" \
  "$keys/signer.key" "$keys/signer.pem"
