#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# libraries.sh FOLDER: lays the sources of the libraries that the page is built with into FOLDER, each in one named like
# its Debian package, with no version. They are Debian's own, of the suites that this machine takes its packages from;
# apt checks their signatures. Touches nothing where all are there already.
set -euo pipefail
folder=$(mkdir -p "$1" && cd "$1" && pwd)
libraries=(expat zlib libzip pugixml libtomcrypt)

lacking=()
for library in "${libraries[@]}"; do [ -d "$folder/$library" ] || lacking+=("$library"); done
[ ${#lacking[@]} -gt 0 ] || exit 0

# Lists of their own: those of the machine name no sources, and are left as they are.
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
mkdir -p "$scratch/lists/partial"
list=/etc/apt/sources.list.d/debian.sources
if [ -e "$list" ]; then
  of_sources=$scratch/sources.sources
  sed 's/^Types:.*/Types: deb-src/' "$list" >"$of_sources"
else
  of_sources=$scratch/sources.list
  sed 's/^deb /deb-src /' /etc/apt/sources.list >"$of_sources"
fi
apt_here() {
  apt-get -qq -o Acquire::Retries=3 -o Dir::Etc::sourcelist="$of_sources" -o Dir::Etc::sourceparts=/dev/null \
    -o Dir::State::lists="$scratch/lists" -o Dir::Cache::srcpkgcache= -o Dir::Cache::pkgcache= "$@"
}
cd "$scratch"
apt_here update
apt_here source --download-only --tar-only "${lacking[@]}"
for library in "${lacking[@]}"; do
  mkdir "$library"
  tar -xf "$library"_*.orig.tar.?z* --strip-components=1 -C "$library"
  mv "$library" "$folder/"
done
