#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# To be sourced: makes a locale with a decimal comma in a folder of the build, without root, and looks whether it works.
#
#   . tests/support/locale.sh
#   make_comma_locale "$root/build/locale"
#   LOCPATH=$root/build/locale LC_ALL=de_DE.UTF-8 program

comma_locale=de_DE.UTF-8

# Whether the locale is there and writes one and a half as 1,5.
has_comma_locale() {
  [ "$(LOCPATH=$1 LC_ALL=$comma_locale locale decimal_point 2>/dev/null)" = , ]
}

make_comma_locale() {
  local folder=$1
  if has_comma_locale "$folder"; then return 0; fi
  mkdir -p "$folder"
  localedef --no-archive -i de_DE -f UTF-8 "$folder/$comma_locale" >&2 || return
  has_comma_locale "$folder" || { printf 'error: the locale %s in %s has no decimal comma\n' "$comma_locale" "$folder" >&2; return 1; }
}
