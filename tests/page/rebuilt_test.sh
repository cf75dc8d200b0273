#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# rebuilt_test.sh: linked, packed and written again from what was compiled, in another folder, at another time, with another
# umask, language and zone, from sources with other times, the page is the same bytes. Exit status 77 where no page was built.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
built=$root/build/page
[ -e "$built/driftwarden.html" ] || { printf 'no %s/driftwarden.html: the page was not built here\n' "$built"; exit 77; }
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
umask 077
export LC_ALL=C.UTF-8 TZ=Pacific/Chatham NODE_PATH=/usr/share/nodejs
mkdir -p "$scratch/another/place" "$scratch/sources"
again=$scratch/another/place
cp -r "$root"/{rules,plots,src} "$scratch/sources/"
mkdir "$scratch/sources/docs"
cp -r "$root/docs/demo" "$scratch/sources/docs/"

link=$(ninja -C "$built" -t commands driftwarden.js | tail -1)
[[ $link == *' -o driftwarden.js '* ]] || { printf 'FAILED: no command links driftwarden.js\n'; exit 1; }
(cd "$built" && bash -c "${link/ -o driftwarden.js / -o $again/driftwarden.js }") >/dev/null
bash "$scratch/sources/src/page/pack.sh" "$again" "$scratch/sources"
/usr/bin/python3 -B "$scratch/sources/src/page/assemble.py" "$scratch/sources" "$again"
for file in driftwarden.wasm driftwarden.js packed.tar driftwarden.html; do
  cmp "$built/$file" "$again/$file" || { printf 'FAILED: %s is not the same bytes when it is made again (of these sources: is build/page of others?)\n' "$file"; exit 1; }
done
printf 'made again: the same bytes, %s\n' "$(sha256sum <"$again/driftwarden.html" | cut -c1-64)"
