#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# To be sourced: installs the Debian packages that are lacking, and touches nothing when none is.
#
#   . tests/support/install.sh
#   install_missing "${build_packages[@]}" "${test_packages[@]}"
#
# The names are those of Debian 12. A package joins a list together with the line that asks for it: in CMakeLists.txt
# for the first list, in tests/ for the second.
# shellcheck disable=SC2034  # the lists are used where this file is sourced

# What the program is built from and what it needs to run: gnuplot draws its charts, and tzdata holds the zone files.
# gnuplot-nox is named because libgnuplot-iostream-dev is content with any gnuplot and would bring the large one.
build_packages=(
  g++ cmake ninja-build pkg-config
  libboost-dev libboost-iostreams-dev libboost-filesystem-dev
  libtomlplusplus-dev libfmt-dev libcli11-dev nlohmann-json3-dev libpugixml-dev libzip-dev libexpat1-dev libssl-dev
  libqrencode-dev libdragonbox-dev
  libgnuplot-iostream-dev gnuplot-nox tzdata
)

# What the tests need beside: a test runner, a locale with a decimal comma, a JSON Schema validator, statistics, functions
# to any digit and a signature check that are not ours, three libraries that write workbooks, two engines that run the parts of a split book side by side, and
# for tests/browser a browser with what drives it and reads its PDF; and what shows the system calls of all these; and
# what finds out what a package needs; and the compiler of the page.
test_packages=(libgtest-dev locales python3 python3-jsonschema python3-scipy python3-mpmath parallel python3-distributed
  python3-openpyxl python3-xlsxwriter python3-odf python3-icalendar
  chromium chromium-sandbox chromium-driver python3-selenium poppler-utils zbar-tools openssl strace dpkg-dev emscripten)

# Prints those of the named packages that are not installed, one a line.
missing_packages() {
  local package status
  for package in "$@"; do
    # "ii " is wanted and installed, "hi " held and installed: the second letter is the state.
    status=$(dpkg-query -W -f '${db:Status-Abbrev}' "$package" 2>/dev/null) || status=
    [[ $status == ?i* ]] || printf '%s\n' "$package"
  done
}

# install_missing PACKAGE...: returns 0 when all are there in the end. Calls apt-get only if one is lacking.
install_missing() {
  if ! command -v dpkg-query >/dev/null; then
    printf 'error: no dpkg-query: this script installs what it lacks on Debian 12 only; elsewhere, build with the presets of CMakePresets.json\n' >&2
    return 1
  fi
  local missing=() as_root=()
  mapfile -t missing < <(missing_packages "$@")
  [ ${#missing[@]} -gt 0 ] || return 0
  if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null; then
      printf 'error: lacking %s; run this as root, install sudo, or let somebody who may run: apt-get install %s\n' \
        "${missing[*]}" "${missing[*]}" >&2
      return 1
    fi
    as_root=(sudo)
  fi
  printf 'installing %s\n' "${missing[*]}" >&2
  if "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update >&2 &&
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "${missing[@]}" >&2; then
    return 0
  fi
  printf 'error: could not install %s\n' "${missing[*]}" >&2
  return 1
}
