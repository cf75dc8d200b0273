#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Builds the program, judges the demo book with it, and shows one sample's working. Run as: bash docs/demo.sh
#
# Installs the Debian packages that are lacking (needs root or sudo then, and the network; neither later). Ends with
# status 0 when everything ran as expected.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$root"
. tests/support/install.sh
. tests/support/program.sh

book=docs/demo
as_of=(--as-of 2026-11-16)  # the Monday after the book's last sample; without it, today

say() { printf '\n== %s\n\n' "$*"; }

# expect STATUS COMMAND...: shows the command, runs it, and ends the demo if its status is not the expected one.
expect() {
  local expected=$1 status=0
  shift
  printf '$ %s %s\n' "${program#"$root"/}" "$*"
  "$program" "$@" || status=$?
  if [ "$status" -ne "$expected" ]; then
    printf '\nerror: that ended with status %d; %d was expected\n' "$status" "$expected" >&2
    exit 1
  fi
}

say '1. Installing what is lacking and building the program (a few minutes the first time)'
install_missing "${build_packages[@]}"
program=$(build_program "$root")

say '2. Reading the book: an invented mine and tunnel, eight weeks, twelve pumps, six calibrators. Everything is read,
   nothing judged yet. Remarks are doubtful places that do not stop the work'
expect 0 check "$book"

say '3. Screening it: a verdict for every sample, and under it each rule that was not met. Status 1 is expected here:
   it says that something is void or undecided, and troubles were planted in this book (docs/demo/README.md)'
expect 1 screen "$book" "${as_of[@]}"

void_sample=TF46B-1  # as in README.md
say "4. Explaining a sample that is void for its drift, $void_sample: every figure with its formula, down to the file and line it came
   from, every rule met or not, with its limit, margin and source. Status 1 again: the sample is void"
expect 1 explain "$book" "$void_sample" "${as_of[@]}"

review=build/demo-review.html
say "5. Writing the page for the weekly review, to $review: open it in a browser. Status 1: this week, too, something is void"
expect 1 review "$book" "${as_of[@]}" --out "$review"

say "That was all as expected. For records of your own: docs/own-files.md takes them as you keep them, docs/first-book.md
   begins a book with ${program#"$root"/} new FOLDER, README.md tells the rest"
