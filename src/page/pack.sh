#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# pack.sh BUILD SOURCES: puts what a run of the program needs into BUILD/packed.tar, the same bytes wherever it is done:
# the module, the rule packs, the themes, and the zone files of this machine, each zone once and its other names as links.
set -euo pipefail
build=$1 sources=$2
staged=$(mktemp -d)
trap 'rm -rf "$staged"' EXIT
mkdir -p "$staged/share" "$staged/usr/share"
cp "$build/driftwarden.wasm" "$staged/"
cp -r "$sources/rules" "$sources/plots" "$staged/share/"
find "$staged/share" -type f ! -name '*.toml' -delete
cp -rL /usr/share/zoneinfo "$staged/usr/share/"
cd "$staged/usr/share/zoneinfo"
rm -rf posix right posixrules localtime leapseconds leap-seconds.list iso3166.tab
declare -A first
while IFS= read -r file; do
  digest=$(sha256sum "$file")
  digest=${digest%% *}
  if [ -n "${first[$digest]-}" ]; then ln -f "${first[$digest]}" "$file"; else first[$digest]=$file; fi
done < <(find . -type f | LC_ALL=C sort)
cd "$staged"
chmod -R u=rwX,go=rX .
LC_ALL=C tar --format=ustar --sort=name --mtime=@0 --owner=0 --group=0 --numeric-owner -cf "$build/packed.tar" driftwarden.wasm share usr
