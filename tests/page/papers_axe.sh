#!/bin/sh
# axe-core finds nothing on any paper of the examples, in both languages:
# sh tests/page/papers_axe.sh PANEWRIGHT (from the top of the project; axe is in build/page/node, Chromium
# of Debian: make test-page-papers brings both).
set -eu
pw=$1
T=$(mktemp -d)
trap 'rm -rf "$T"' EXIT
papers() { "$pw" papers "$1" -o "$2" --package "$(awk -F, '!/^#/ && ++n == 2 {print $1; exit}' "$1/packages.csv")" --no-range --html-only --language "$3" \
  --date 2026-11-29 --program examples/programs/juniper_flat_power_2026.csv ${4:+--before "$4"} 2>>"$T/said" || { cat "$T/said" >&2; exit 1; }; }
for language in en es; do
  for job in examples/harrow_bend examples/cinder_lane examples/starter; do
    at=$T/$language-$(basename "$job")
    papers "$job" "$at" "$language"
    cp "$at/maker/order.csv" "$T/before.csv"
    papers "$job" "$at" "$language" "$T/before.csv"
  done
done
# shellcheck disable=SC2046
node tests/page/axe.mjs $(find "$T" -name '*.html' | sort)
