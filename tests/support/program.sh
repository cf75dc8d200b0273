#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# To be sourced: builds the program alone, without tests, as preset `release` describes it, in a folder of its own.
#
#   . tests/support/program.sh
#   program=$(build_program "$root")
#
# Prints the program's path; everything else that is said goes to standard error.

build_program() {
  local root=$1
  local folder=$root/build/program
  # A warning that another compiler has to give must not keep anybody from using the program.
  (cd "$root" && cmake --preset release -B "$folder" -DBUILD_TESTING=OFF -DDRIFTWARDEN_WERROR=OFF) >&2 || return
  cmake --build "$folder" --target driftwarden >&2 || return
  printf '%s\n' "$folder/driftwarden"
}
