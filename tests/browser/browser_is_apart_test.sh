#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# What the program starts is kept apart: the browser that prints and gnuplot reach no network, take nothing from the
# user's home, and no shell of ours is started. Read from a trace of the system calls.
set -euo pipefail
# The build under sanitizers cannot be traced; the release program is the same source.
program=${DRIFTWARDEN_OTHER_BUILD:-$1}
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
fail() {
  printf 'failed: %s\n' "$*" >&2
  exit 1
}

if ! strace -o /dev/null true 2>/dev/null; then
  printf 'skipped: nothing can be traced here (strace is missing, or not allowed)\n'
  exit 77
fi

# A user whose home would change what is drawn and printed, were it read.
home=$scratch/home
mkdir -p "$home/.config/chromium" "$home/odd # 50 % ? folder"
printf 'set output "/dev/null"\nexit status 3\n' >"$home/.gnuplot"
export HOME=$home TMPDIR="$home/odd # 50 % ? folder" GNUTERM=dumb

extra=()
traced() {  # NAME ARGUMENT...: runs the program, and keeps what it and its children ask of the system
  local name=$1 status=0
  shift
  mkdir "$scratch/$name"
  strace -ff -qq -s 200 "${extra[@]}" -e trace=execve,socket,connect,sendto,sendmsg,openat,unshare -o "$scratch/$name/trace" \
    "$program" "$@" >"$scratch/$name.out" 2>"$scratch/$name.err" || status=$?
  [ "$status" -le 1 ] || fail "$name ended with status $status: $(cat "$scratch/$name.err")"
}

# Connections that were made, and datagrams that went out, to addresses of the internet.
reached() { grep -hE '^(connect|sendto|sendmsg)\(.*AF_INET' "$scratch/$1"/trace.* | grep -vE '= -1 E' || true; }

traced review review docs/demo --as-of 2026-11-16 --out "$scratch/review.pdf" --format pdf
traced history history docs/demo PUMP-07 --as-of 2026-11-16 --out "$scratch/history"
traced screen screen docs/demo --as-of 2026-11-16
head -c 4 "$scratch/review.pdf" | grep -q %PDF || fail 'no PDF was printed from a folder of an odd name'
ls "$scratch"/history/*.svg >/dev/null || fail 'no chart was drawn'

for name in review history screen; do
  [ -z "$(reached $name)" ] || fail "$name reached the network: $(reached $name | head -3)"
done
for name in history screen; do
  ! grep -qE '^socket\(AF_INET' "$scratch/$name"/trace.* || fail "$name asked for the network"
  ! grep -qE '^execve\("[^"]*/(sh|bash|dash)"' "$scratch/$name"/trace.* || fail "$name started a shell"
done
# The program's own process, whose trace begins with it, asks for no network even where it starts the browser.
own=$(grep -lF "execve(\"$program\"" "$scratch"/review/trace.*)
! grep -qE '^socket\(AF_INET' "$own" || fail 'review asked for the network itself'
grep -qE 'gnuplot", \["[^"]*", "-d"' "$scratch"/history/trace.* || fail 'gnuplot is not told to leave settings alone'
in_home=$(grep -hE "^openat\(.*\"$home/\." "$scratch"/*/trace.* || true)
[ -z "$in_home" ] || fail "the user's home was read: $(head -2 <<<"$in_home")"
[ -z "$(ls -A "$TMPDIR")" ] || fail "litter among the temporary files: $(ls -A "$TMPDIR")"

# Where the system lets no process leave the network, the options of the browser hold: no name is looked up, no
# connection tried, no datagram sent. (It asks which way a datagram would take; that sends none.)
extra=(-e inject=unshare:error=EPERM)
traced shut review docs/demo --as-of 2026-11-16 --out "$scratch/shut.pdf" --format pdf
asked=$(grep -hE '^(sendto|sendmsg)\(.*AF_INET|^connect\(.*AF_INET.*port=htons\(53\)|^socket\(AF_INET6?, SOCK_STREAM' "$scratch"/shut/trace.* || true)
[ -z "$asked" ] || fail "by its options alone the browser asks: $(head -3 <<<"$asked")"

# Without a folder for temporary files it is said what to do, and nothing is printed.
status=0
TMPDIR=$scratch/none "$program" review docs/demo --as-of 2026-11-16 --out "$scratch/none.pdf" --format pdf >/dev/null 2>"$scratch/none.err" || status=$?
[ "$status" = 2 ] || fail "without a folder for temporary files the status is $status"
grep -q 'set TMPDIR to a folder that can be written to.*\[output/no-scratch\]' "$scratch/none.err" || fail 'no way out is told'
[ ! -e "$scratch/none.pdf" ] || fail 'a PDF was printed without a folder to print in'
echo 'The browser and gnuplot are apart from the network and from the user.'
