#!/bin/sh
# Runs programs with floating-point traps on (tests/traps/traps.c). Usage: tests/traps.sh BUILD TEST...
# TEST is what tests/run.sh takes. Printed is every place in which a division by zero, an invalid operation or an
# overflow was met, but for those of tests/traps/allowed, which says why each stands; ends with 1 where there is one.
set -u
B=$(realpath "$1")
shift
W=$(mktemp -d) || exit 70
trap 'rm -rf "$W"' EXIT
${CC:-cc} -O1 -shared -fPIC -o "$W/traps.so" tests/traps/traps.c -lm -ldl || exit 70
touch "$W/log"
BUILD=${B##*"$PWD"/} TRAPS_LOG=$W/log TRAPS_WITHIN=$B LD_PRELOAD=$W/traps.so sh tests/run.sh "$@" >"$W/tests" 2>&1
rc=$?
[ $rc = 0 ] || { grep -B3 -E "FAILED|ERROR|^!!" "$W/tests" && tail -1 "$W/tests"; }
tail -1 "$W/tests"
sort "$W/log" | uniq -c | while read -r n kind program module at; do
  echo "$n $kind ${program##*/} ${module##*/} $(addr2line -i -f -e "$module" "$at" | sed "s|$PWD/||" | paste -sd' ')"
done >"$W/places"
grep -v '^#' tests/traps/allowed | cut -f1 >"$W/allowed"
grep -vFf "$W/allowed" "$W/places" | sort -rn >"$W/left"
echo "traps: $(wc -l <"$W/places") places, $(wc -l <"$W/left") not in tests/traps/allowed"
cat "$W/left"
[ ! -s "$W/left" ]
