#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# floors.sh FOLDER: holds a tree of this project to the rules of the house, and prints what breaks them, one a line, as
# file:line: what. Exit status 0 when nothing does. Tested by floors_test.sh.
# shellcheck disable=SC2016  # the texts are for awk to expand
set -euo pipefail
export LC_ALL=C
cd "$1"
found=$(mktemp)
trap 'rm -f "$found"' EXIT

list() { find "$@" -type f | sort; }  # in one order on every machine

# A file includes only lower floors, or its own. The floors of one height don't know each other.
includes_that_look_up() {
  list include/driftwarden src -name '*.[ch]pp' | xargs awk '
    BEGIN {
      split("diagnostic quantity record book correction statistics aerosol assessment rule verdict history", name, " ")
      for (i in name) height[name[i]] = i - 1
      height["system"] = height["outside"] = height["quantity"]
      height["doubt"] = height["rule"]
      height["report"] = height["plot"] = height["evidence"] = 11
      height["workshop"] = height["engine"] = 12
      height["command"] = height["page"] = 13
    }
    function floor_of(path) {
      sub(/^include\/driftwarden\//, "", path); sub(/^src\//, "", path); sub(/^driftwarden\//, "", path)
      return path ~ /\// ? substr(path, 1, index(path, "/") - 1) : ""
    }
    FNR == 1 {
      own = floor_of(FILENAME)
      if (!(own in height)) printf "%s:1: %s is no floor of the house\n", FILENAME, own == "" ? "this place" : own
    }
    /^[ \t]*#[ \t]*include[ \t]*"/ {
      split($0, part, "\"")
      other = floor_of(part[2])
      if (other == own || !(own in height)) next
      if (!(other in height)) printf "%s:%d: includes \"%s\", which is on no floor\n", FILENAME, FNR, part[2]
      else if (other == "outside" && height[own] < height["workshop"])
        printf "%s:%d: %s is of the engine, and outside is not\n", FILENAME, FNR, own
      else if (height[other] == height[own]) printf "%s:%d: %s includes its neighbour %s\n", FILENAME, FNR, own, other
      else if (height[other] > height[own]) printf "%s:%d: %s looks up to %s\n", FILENAME, FNR, own, other
    }'
}

# What belongs to one kind of system, or to a library that holds keys, is asked for in few places.
systems_own() {
  list include/driftwarden src -name '*.[ch]pp' | grep -vE '/(system|outside|workshop|command|page)/' | xargs awk '
    match($0, /^#include <(unistd\.h|fcntl\.h|dirent\.h|poll\.h|sched\.h|spawn\.h|signal\.h|csignal|sys\/[a-z]*\.h|openssl\/[a-z0-9]*\.h)>/) {
      printf "%s:%d: asks the system itself: %s\n", FILENAME, FNR, substr($0, 10) }'
}

# Every room has its test. main.cpp only hands over to rooms; whole-program tests run it, and what stands in for rooms in
# the page is held to their bytes by tests/page.
rooms_without_a_test() {
  local source test
  while read -r source; do
    test=tests/${source#src/}
    test=${test%.cpp}_test.cpp
    [ "$source" = src/command/main.cpp ] || [[ $source == src/page/* ]] || [ -e "$test" ] || printf '%s:1: has no %s\n' "$source" "$test"
  done < <(list src -name '*.cpp')
}

# Two types of one name in two headers are one to the linker, and crash where they meet. Indented ones are parts of another.
types_of_one_name() {
  list include/driftwarden src tests -name '*.hpp' | xargs awk '
    /^(struct|class|enum class) [A-Z][A-Za-z]*( final)? *[:{]/ {
      name = $1 == "enum" ? $3 : $2
      sub(/[:{].*/, "", name)
      if (name in first) printf "%s:%d: %s is also the name of a type in %s\n", FILENAME, FNR, name, first[name]
      else first[name] = FILENAME
    }'
}

# Every id of a diagnostic in the code, as "file:line id": a text of the form room/what. Left out are texts of the
# same form that are no ids: units, media types, folders, and the full names of rules, which begin with the name of a
# shipped pack.
ids_in_code() {
  list include/driftwarden src -name '*.[ch]pp' | xargs awk -v packs="$(list rules -name '*.toml' | tr '\n' ' ')" '
    BEGIN {
      split("l/min l/minute ml/min cc/min g/m3 mg/m3 ug/m3 ng/m3 fibres/cm3 yes/no n/a share/driftwarden text/csv text/html application/json", no, " ")
      for (i in no) is_no_id[no[i]] = 1
      gsub(/rules\/|\.toml/, "", packs)
      split(packs, pack, " ")
      for (i in pack) is_pack[pack[i]] = 1
    }
    function tell(id) {
      if (!(id in is_no_id) && !(substr(id, 1, index(id, "/") - 1) in is_pack)) print FILENAME ":" FNR, id
    }
    /^[ \t]*(\/\/|#[ \t]*include)/ { next }
    {
      line = $0
      sub(/[ \t]\/\/ .*/, "", line)
      while (match(line, /"[a-z][a-z-]*\/[a-z0-9-]+"/)) {
        tell(substr(line, RSTART + 1, RLENGTH - 2))
        line = substr(line, RSTART + RLENGTH)
      }
    }'
}

# Every id has a paragraph in the manual, and every paragraph an id.
ids_without_a_page() {
  awk -v page=docs/diagnostics.md '
    FILENAME == page && /^### / { line_of[$2] = FNR; next }
    FILENAME != page { used[$2] = 1; if (!($2 in line_of)) printf "%s: %s has no heading in %s\n", $1, $2, page }
    END { for (id in line_of) if (!(id in used)) printf "%s:%d: %s is an id nobody uses\n", page, line_of[id], id }
  ' docs/diagnostics.md <(ids_in_code) | sort -t: -k1,1 -k2,2n
}

# Every rule of a shipped pack is named in the manual.
rules_without_a_page() {
  list rules -name '*.toml' | xargs awk -v page=docs/rules.md '
    BEGIN { while ((getline line < page) > 0) text = text line "\n" }
    FNR == 1 { in_rule = 0 }
    /^pack[ \t]*=/ { split($0, part, "\""); pack = part[2] }
    /^\[\[?rule/ { in_rule = 1 }
    in_rule && /^id[ \t]*=/ {
      split($0, part, "\"")
      full = pack "/" part[2]
      if (!index(text, "`" full "`")) printf "%s:%d: rule %s is not in %s\n", FILENAME, FNR, full, page
    }'
}

# What differs between machines: functions of a system's library, Boost.Math over its types, numbers wider than a double,
# sums in no fixed order. For the first two there is one room each (docs/adr/0013-one-arithmetic.md).
arithmetic_of_the_machine() {
  list include/driftwarden src -name '*.[ch]pp' | xargs awk '
    function tell(what) { printf "%s:%d: %s\n", FILENAME, FNR, what }
    FNR == 1 { is_room = FILENAME ~ /\/(quantity\/elementary|statistics\/(special_functions|portable_number))\.[ch]pp$/ }
    { sub(/(^|[ \t])\/\/.*/, "") }
    is_room { next }
    /^#include <boost\/math\// { tell("only statistics/special_functions includes Boost.Math") }
    match($0, /(^|[^A-Za-z0-9_:.>]|std::|[ (]::)(exp2?|expm1|log(2|10|1p)?|pow|erfc?|[lt]gamma|hypot|cbrt|a?(sin|cos|tan)h?|atan2|fma)\(/) {
      tell("a function that differs between machines; quantity/elementary and statistics/special_functions have it")
    }
    /long double|__float128|std::execution|std::(transform_)?reduce/ { tell("figures that differ between machines") }'
}

# A formula's comment keeps its parts on lines of their own: a formatter that fills lines runs them together.
formulas_run_together() {
  list include/driftwarden src -name '*.[ch]pp' | xargs awk '
    /^ *\/\/ .*[^ ] (Valid|Example)  +[^ ]/ { printf "%s:%d: two parts of a formula in one line\n", FILENAME, FNR }'
}

rooms_too_large() {
  list include/driftwarden src tests -name '*.[ch]pp' | xargs awk '
    FNR == 501 { printf "%s:501: has more than 500 lines\n", FILENAME }'
}

# What a merge leaves where both sides changed a line.
halves_of_a_merge() {
  list CMakeLists.txt include/driftwarden src tests docs rules | xargs grep -nE '^(<<<<<<<|>>>>>>>) ' |
    sed 's/^\([^:]*:[0-9]*\):.*/\1: a merge was not finished here/' || true
}

# The first line of a source, or the second of a script, names the licence.
files_without_a_licence() {
  list CMakeLists.txt include/driftwarden src tests docs -name '*.[ch]pp' -o -name '*.sh' -o -name '*.py' -o -name '*.cmake' -o -name CMakeLists.txt |
    xargs awk '
      function tell() { if (file != "" && !found) printf "%s:1: does not begin with its SPDX line\n", file }
      FNR == 1 { tell(); file = FILENAME; found = 0; is_script = /^#!/ }
      FNR == 1 + is_script && /^(\/\/|#) SPDX-License-Identifier: MIT$/ { found = 1 }
      END { tell() }'
}

{
  includes_that_look_up
  systems_own
  rooms_without_a_test
  types_of_one_name
  ids_without_a_page
  rules_without_a_page
  arithmetic_of_the_machine
  formulas_run_together
  rooms_too_large
  files_without_a_licence
  halves_of_a_merge
} >"$found"
cat "$found"
[ ! -s "$found" ]
