#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Whether DEVELOPERS.md names every file that a further measure and a further principle need.
# In a copy of the sources one of each is added, in the files that the page lists and in no other: what looks at them
# then compiles without a warning. Leave one file of the list out, and it does not.
set -euo pipefail
project=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
copy=$(mktemp -d)
trap 'rm -rf "$copy"' EXIT
cp -r "$project/include" "$project/src" "$copy"
cd "$copy"
failures=0
fail() { echo "FAILED $*"; failures=$((failures + 1)); }

# One edit a file; each is what whoever adds one would write there.
insert_before() { # FILE FIRST-LINE-OF-THE-BLOCK LINE TEXT: before the first such line after the block's first
  awk -v block="$2" -v line="$3" -v text="$4" '
    index($0, block) { inside = 1 }
    inside && !done && index($0, line) == 1 { print text; done = 1 }
    { print }
    END { exit !done }' "$1" > edited
  mv edited "$1"
}

measure_src_rule_measure_hpp() {
  insert_before "$1" 'enum class SampleMeasure' '  count_' '  one_more,'
}
measure_src_rule_measure_catalogue_hpp() {
  insert_before "$1" 'Measure sample_measures[]' '};' '    number(SampleMeasure::one_more, "one.more", Dimension::time, "min", "minutes, and stated").stated("by time", the_sample),'
}
measure_src_rule_english_cpp() {
  insert_before "$1" 'MeasureTexts of_samples[]' '};' '    row(S::one_more, "It took {figure}", "How long it took is not known: {why}"),'
}
measure_src_verdict_sample_figures_cpp() {
  insert_before "$1" 'constexpr SampleFigure figures[]' '};' '    {M::one_more, own<&A::minutes>, &K::minutes},'
}
principle_src_record_instrument_hpp() {
  sed -i 's/^\(enum class Principle .*\), orifice }/\1, orifice, one_more }/;
          s/^\(.*principle_words\[\] = .*"orifice"\)}/\1, "one more"}/' "$1"
}
principle_src_correction_principle_cpp() {
  insert_before "$1" 'constexpr PrincipleKind kinds[]' '};' \
    '    {Principle::one_more, mass_step, mass_slopes, mass_formula, nothing_left_out},'
}

# The files that a paragraph of the page names, as they lie in the folder.
files_of() { # WORD-OF-THE-PARAGRAPH
  awk -v head="**a $1" 'index($0, head) == 1 { on = 1 } on && NF == 0 { exit } on' "$project/DEVELOPERS.md" |
    sed 's/^\*\*.*\.\*\*//' | grep -oE '`[a-z]+/[a-z_]+\.[ch]pp`' | tr -d '`' | while read -r name; do
      [ ! -e "src/$name" ] || echo "src/$name"
    done
}

compiles() { # SOURCE…
  local source
  for source in "$@"; do
    "${CXX:-c++}" -std=c++20 -O0 -Wall -Wextra -Werror -fsyntax-only -Iinclude -Isrc "$source" > said 2>&1 || return 1
  done
}

edit() { "$1_$(echo "$2" | tr '/.' '__')" "$2"; }

try() { # WHAT FILES-THAT-COUNT SOURCE…
  local what=$1 counting=$2 file left_out
  shift 2
  local files
  files=$(files_of "$what")
  [ -n "$files" ] || { fail "DEVELOPERS.md names no file for a $what"; return; }
  for file in $files; do
    declare -F "${what}_$(echo "$file" | tr '/.' '__')" > /dev/null || continue
    cp "$file" kept
    edit "$what" "$file"
    cmp -s "$file" kept && fail "$what: nothing was added in $file"
    mkdir -p "kept_$what/$(dirname "$file")"
    mv kept "kept_$what/$file"
  done
  [ "$(find "kept_$what" -type f | wc -l)" = "$counting" ] || fail "DEVELOPERS.md does not name all files for a $what"
  compiles "$@" || { fail "a $what in the files of the list does not compile"; head -5 said; }
  while read -r left_out; do
    cp "$left_out" edited_file
    cp "kept_$what/$left_out" "$left_out"
    ! compiles "$@" || fail "a $what that is left out in $left_out is not refused"
    cp edited_file "$left_out"
  done < <(cd "kept_$what" && find . -type f | sed 's|^\./||')
}

try measure 4 src/verdict/sample_figures.cpp src/rule/english.cpp
try principle 2 src/correction/principle.cpp
compiles src/rule/measure.cpp src/record/instrument.cpp || { fail 'with both, something does not compile'; head -5 said; }
# Nobody else (but who asks whether there is a float to read) asks which principle it is, or has a default for what a measure is.
grep -rnE 'switch \(.*(principle|[mM]easure)\)' src include | grep -v 'subjects.cpp' && fail 'a switch over principles or measures'
grep -rlE 'Principle::[a-z]+' src include | grep -v 'correction/principle\|record/instrument\|verdict/sample_figures' &&
  fail 'a principle is asked for by name elsewhere'
[ "$failures" = 0 ] && echo "a measure and a principle are added in the files that DEVELOPERS.md names, and in no others"
exit "$((failures > 0))"
