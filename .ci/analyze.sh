#!/bin/sh
# Two analyzers over the sources; both read .ci/analyze.h first. Usage: .ci/analyze.sh BUILD [FILE...]
# clang-tidy asks what .clang-tidy says. gcc -fanalyzer without four of its warnings, which in gcc 12 do not hold on code like ours:
#   -Wanalyzer-malloc-leak, -Wanalyzer-use-of-uninitialized-value, -Wanalyzer-null-dereference, -Wanalyzer-null-argument: it loses what
#   a struct owns, and a status returned beside a pointer that is filled when it is PW_OK; valgrind, the sanitizers and the
#   failed allocations of `make test-faults` watch these as the program runs.
# The year of 2, 4 and 8 houses is the code of one house's (house/year_lanes_1.c) and would take minutes each.
# A file without a finding is not asked again (BUILD/analyzed) until its text, a header's or what is asked here changes.
set -u
build=$1
shift
[ $# -gt 0 ] || set -- $(find src -name '*.c' ! -path 'src/page/*' ! -name status.c ! -name 'year_lanes_[248].c' | sort)
flags="-std=c11 -D_POSIX_C_SOURCE=200809L -Iinclude -Isrc -I$build -isystem /usr/include/suitesparse -include .ci/analyze.h"
quiet="-Wno-analyzer-malloc-leak -Wno-analyzer-use-of-uninitialized-value -Wno-analyzer-null-dereference -Wno-analyzer-null-argument"
mkdir -p "$build/analyzed"
W=$(mktemp -d) || exit 70
trap 'rm -rf "$W"' EXIT
printf '%s\n' "$@" | xargs -P "${JOBS:-2}" -I FILE sh -c "
  clean=$build/analyzed/\$(gcc $flags -E -CC FILE | cat - .clang-tidy .ci/analyze.sh | sha256sum | cut -d' ' -f1)
  [ -e \$clean ] && exit 0
  said=\$(gcc $flags $quiet -O1 -fanalyzer -c -o /dev/null FILE 2>&1
    clang-tidy --quiet FILE -- $flags 2>&1 | grep -v ' warnings\{0,1\} .*generated')
  [ -z \"\$said\" ] && touch \$clean || printf '%s\n' \"\$said\"" >"$W/said"
cat "$W/said"
[ ! -s "$W/said" ]
