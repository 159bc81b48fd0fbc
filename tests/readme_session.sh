#!/bin/sh
# README's session, run again: in each block that begins with "$ panewright ...", every line must come
# out of the command as printed, "..." standing for lines left out. Usage: readme_session.sh PROGRAM
set -u
program=$1
out=$(mktemp) && want=$(mktemp) || exit 70
trap 'rm -f "$out" "$want"' EXIT
bad=0 blocks=0
awk '/^```text/{on = 1; next} /^```/{if (on) print "@end"; on = 0; next} on' README.md >"$want"
while IFS= read -r line; do
  case $line in
    '$ panewright '*)
      eval "\"$program\" ${line#\$ panewright }" >"$out" 2>/dev/null || { echo "fails: $line"; bad=1; }
      blocks=$((blocks + 1)) ;;
    '@end' | '...' | '' | 'make '*) ;;
    *) sed 's/ *$//' "$out" | grep -qxF -e "$line" || { echo "not printed any more: $line"; bad=1; } ;;
  esac
done <"$want"
echo "$blocks blocks of the README run"
[ $bad = 0 ] || echo "README.md is behind: make readme" >&2
[ "$blocks" -gt 0 ] && [ $bad = 0 ]
