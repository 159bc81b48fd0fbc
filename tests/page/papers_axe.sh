#!/bin/sh
# axe-core finds nothing on any paper of the program, in both languages, nor on those of the other examples in one:
# sh tests/page/papers_axe.sh PANEWRIGHT (from the top of the project; axe is in build/page/node, Chromium
# of Debian: make test-page-papers brings both).
set -eu
pw=$1
T=$(mktemp -d)
trap 'rm -rf "$T"' EXIT
papers() { "$pw" papers "$1" -o "$2" --package "$(awk -F, '!/^#/ && ++n == 2 {print $1; exit}' "$1/packages.csv")" --no-range --html-only --language "$3" \
  --date 2026-11-29 --program examples/programs/juniper_flat_power_2026.csv ${4:+--before "$4"} 2>>"$T/said" || { cat "$T/said" >&2; exit 1; }; }
while read -r language job; do
  at=$T/$language-$job
  papers "examples/$job" "$at" "$language"
  cp "$at/maker/order.csv" "$T/before.csv"
  papers "examples/$job" "$at" "$language" "$T/before.csv"
done <<JOBS
en harrow_bend
es harrow_bend
en cinder_lane
es starter
JOBS
# shellcheck disable=SC2046
node tests/page/axe.mjs $(find "$T" -name '*.html' | sort)
