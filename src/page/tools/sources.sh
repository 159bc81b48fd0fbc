#!/bin/sh
# Fetches Debian's source of each library named, checked by apt's signatures, and lays it open in a folder.
#   sh src/page/tools/sources.sh FOLDER PACKAGE...   ->  FOLDER/PACKAGE/
# The list of sources is made from the machine's own, so that no address stands here.
set -eu
folder=$(mkdir -p "$1" && cd "$1" && pwd)
shift
missing=""
for p in "$@"; do [ -d "$folder/$p" ] || missing="$missing $p"; done
[ -z "$missing" ] && exit 0

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir -p "$work/parts" "$work/lists/partial" "$work/open"
for f in /etc/apt/sources.list.d/*.sources; do
  [ -f "$f" ] && sed 's/^Types:.*/Types: deb-src/' "$f" >"$work/parts/$(basename "$f")"
done
cat /etc/apt/sources.list /etc/apt/sources.list.d/*.list 2>/dev/null |
  sed -n 's/^deb /deb-src /p' >"$work/sources.list"
# Places that are not Debian's have none of what is wanted: whether they answer is nothing to us.
own() { apt-get -q -o Dir::Etc::sourcelist="$work/sources.list" -o Dir::Etc::sourceparts="$work/parts" \
  -o Dir::State::lists="$work/lists" -o APT::Sandbox::User=root "$@"; }
own update >"$work/said" 2>&1 || { cat "$work/said" >&2; echo "panewright: some lists of sources could not be had" >&2; }
versions() { apt-cache -o Dir::Etc::sourcelist="$work/sources.list" -o Dir::Etc::sourceparts="$work/parts" \
  -o Dir::State::lists="$work/lists" showsrc "$1" | sed -n 's/^Version: //p'; }
# The newest that can be had: a mirror may list a file that it has not got.
fetch() {
  for v in $(versions "$1" | sort -Vr | uniq); do
    own source "$1=$v" >"$work/said" 2>&1 && return 0
    rm -rf "$work/open"/*
  done
  cat "$work/said" >&2
  return 1
}
cd "$work/open"
for p in $missing; do
  echo "  source $p"
  fetch "$p"
  found=$(find . -mindepth 1 -maxdepth 1 -type d)
  mv "$found" "$folder/$p"
  rm -rf "$work/open"/*
done
