#!/bin/sh
# Two analyzers over the sources. Usage: .ci/analyze.sh BUILD [FILE...]
# clang-tidy asks what .clang-tidy says. gcc -fanalyzer without two of its warnings, which in gcc 12 do not hold on code like ours:
#   -Wanalyzer-malloc-leak, -Wanalyzer-use-of-uninitialized-value: it loses what an array of structs owns, or a
#   status returned beside a filled struct; valgrind and the sanitizers watch both as the tests run.
set -u
build=$1
shift
[ $# -gt 0 ] || set -- $(find src -name '*.c' ! -path 'src/page/*' | sort)
flags="-std=c11 -D_POSIX_C_SOURCE=200809L -Iinclude -Isrc -I$build -isystem /usr/include/suitesparse"
W=$(mktemp -d) || exit 70
trap 'rm -rf "$W"' EXIT
printf '%s\n' "$@" | xargs -P "${JOBS:-2}" -I FILE sh -c "
  gcc $flags -O1 -fanalyzer -Wno-analyzer-malloc-leak -Wno-analyzer-use-of-uninitialized-value -c -o /dev/null FILE 2>&1
  clang-tidy --quiet FILE -- $flags 2>/dev/null" >"$W/said"
cat "$W/said"
! grep -qE '(warning|error): ' "$W/said"
