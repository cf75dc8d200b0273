#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The rules of the house hold in this tree; and the check that says so sees each kind of violation, planted in a copy.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
root=$(cd "$here/../.." && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
copy=$scratch/copy
failures=0

mkdir -p "$copy/docs" "$copy/tests"
cp -r "$root"/{CMakeLists.txt,include,src,rules} "$copy"
cp "$root"/docs/{diagnostics,rules}.md "$copy/docs"
(cd "$root" && find tests -name '*_test.cpp' -exec cp --parents {} "$copy" \;)

look() { bash "$here/floors.sh" "$copy" >"$1" || true; }
look "$scratch/before"

# plant NAME FILE TEXT EXPECTED: adds the text to a file of the copy; exactly the expected line must come to the report.
plant() {
  local name=$1 file=$copy/$2 text=$3 expected=$4 seen
  mkdir -p "$(dirname "$file")"
  [ ! -e "$file" ] || cp "$file" "$scratch/kept"
  printf '%s\n' "$text" >>"$file"
  look "$scratch/after"
  if [ -e "$scratch/kept" ]; then mv "$scratch/kept" "$file"; else rm "$file"; fi
  seen=$({ diff "$scratch/before" "$scratch/after" || true; } | sed -n 's/^> //p')
  [ "$seen" = "$expected" ] && return
  printf 'FAILED: %s\n  expected: %s\n  reported: %s\n' "$name" "$expected" "$seen"
  failures=$((failures + 1))
}

licence='// SPDX-License-Identifier: MIT'
# A header of that many lines.
header_of() { local i; printf '%s\n' "$licence"; for ((i = 2; i <= $1; ++i)); do printf '// %d\n' "$i"; done; }
end_of_diagnostics=$(($(wc -l <"$copy/docs/diagnostics.md") + 1))

plant 'an include of a lower floor is fine' src/verdict/planted.hpp \
  "$licence"$'\n#include "quantity/limit.hpp"\n#include "book/stamp_text.hpp"\n#include <vector>' ''
plant 'a public header that looks up' include/driftwarden/engine/planted.hpp \
  "$licence"$'\n\n#include "command/shipped.hpp"' \
  'include/driftwarden/engine/planted.hpp:3: engine looks up to command'
plant 'a header that looks up' src/book/planted.hpp "$licence"$'\n#include "rule/toml_reader.hpp"' \
  'src/book/planted.hpp:2: book looks up to rule'
plant 'an include of a neighbour' src/report/planted.hpp "$licence"$'\n#include "plot/chart.hpp"' \
  'src/report/planted.hpp:2: report includes its neighbour plot'
plant 'a room of the engine that leaves it' src/book/planted.hpp \
  "$licence"$'\n#include "outside/whole_file.hpp"' \
  'src/book/planted.hpp:2: book is of the engine, and outside is not'
plant 'a room of the engine that asks the system itself' src/book/planted.hpp "$licence"$'\n#include <sys/stat.h>' \
  'src/book/planted.hpp:2: asks the system itself: <sys/stat.h>'
plant 'an include of a folder that is no floor' src/report/planted.hpp "$licence"$'\n#include "misc/text.hpp"' \
  'src/report/planted.hpp:2: includes "misc/text.hpp", which is on no floor'
plant 'a file on no floor' src/misc/planted.hpp "$licence" 'src/misc/planted.hpp:1: misc is no floor of the house'
plant 'a room without a test' src/quantity/planted.cpp "$licence" \
  'src/quantity/planted.cpp:1: has no tests/quantity/planted_test.cpp'
plant 'what a merge left' src/quantity/planted.hpp "$licence"$'\n<<<<<<< ours' \
  'src/quantity/planted.hpp:2: a merge was not finished here'
plant 'a formula whose parts ran together' src/quantity/planted.hpp "$licence"$'\n//   Valid    always Example  1  ->  2' \
  'src/quantity/planted.hpp:2: two parts of a formula in one line'
plant 'two types of one name' src/quantity/planted.hpp "$licence"$'\nstruct DriftBase {' \
  'src/quantity/planted.hpp:2: DriftBase is also the name of a type in src/assessment/practice.hpp'
plant 'an id without a page' src/quantity/planted.hpp "$licence"$'\nauto fault = error(\n    "cell/planted", place, "");' \
  'src/quantity/planted.hpp:3: cell/planted has no heading in docs/diagnostics.md'
plant 'an id in a comment is none' src/quantity/planted.hpp "$licence"$'\n// as in "cell/planted"' ''
plant 'the name of a rule is no id' src/quantity/planted.hpp "$licence"$'\nauto rule = "common-practice/planted";' ''
plant 'an id of the settings without a page' src/book/settings_planted.hpp \
  "$licence"$'\nfile.fault("settings/planted", place, "");' \
  'src/book/settings_planted.hpp:2: settings/planted has no heading in docs/diagnostics.md'
plant 'a page without an id' docs/diagnostics.md '### cell/planted' \
  "docs/diagnostics.md:$end_of_diagnostics: cell/planted is an id nobody uses"
plant 'a rule without a page' rules/planted.toml $'pack = "planted"\n[[rule]]\nid = "drift"' \
  'rules/planted.toml:3: rule planted/drift is not in docs/rules.md'
differs='a function that differs between machines; quantity/elementary and statistics/special_functions have it'
plant 'a logarithm of the system' src/book/planted.hpp "$licence"$'\nauto x = 2 * std::log(y);' "src/book/planted.hpp:2: $differs"
plant 'a power of the system without its namespace' src/book/planted.hpp "$licence"$'\nauto x = -pow(y, 2);' \
  "src/book/planted.hpp:2: $differs"
plant 'a logarithm of our own, and one in a comment, are fine' src/book/planted.hpp \
  "$licence"$'\nauto x = elementary::log(y);  // unlike std::log(y)' ''
plant 'Boost.Math outside of its room' src/statistics/planted.hpp "$licence"$'\n#include <boost/math/special_functions/erf.hpp>' \
  'src/statistics/planted.hpp:2: only statistics/special_functions includes Boost.Math'
plant 'a number wider than a double' src/statistics/planted.hpp "$licence"$'\nlong double sum = 0;' \
  'src/statistics/planted.hpp:2: figures that differ between machines'
plant 'a room of 500 lines is fine' src/quantity/planted.hpp "$(header_of 500)" ''
plant 'a room of 501 lines' src/quantity/planted.hpp "$(header_of 501)" \
  'src/quantity/planted.hpp:501: has more than 500 lines'
plant 'a source without its licence' src/quantity/planted.hpp '#pragma once' \
  'src/quantity/planted.hpp:1: does not begin with its SPDX line'
plant 'a script without its licence' docs/planted.sh '#!/usr/bin/env bash' \
  'docs/planted.sh:1: does not begin with its SPDX line'
[ "$failures" -gt 0 ] || printf 'floors.sh sees what was planted\n'

bash "$here/floors.sh" "$root" || failures=$((failures + 1))
exit $((failures > 0))
