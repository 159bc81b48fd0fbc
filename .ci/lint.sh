#!/bin/sh
# House rules that a compiler does not check. Usage: .ci/lint.sh BUILD
set -u
build=${1:-build}
bad=0
fail() { echo "lint: $*" >&2; bad=1; }

for h in include/*.h include/panewright/*.h; do
  cc -std=c11 -Iinclude -Wall -Wextra -fsyntax-only -x c "$h" || fail "$h does not stand alone"
done
n=$(ls include/panewright | wc -l)
[ "$n" -ge 15 ] && [ "$n" -le 25 ] || fail "$n public headers, want 15 to 25"

# What is in git; a source archive has no git.
sources() { git ls-files '*.c' '*.h' 2>/dev/null || find src include tests -name '*.[ch]' | sort; }

# Kernels (floors 0 to 4) neither print nor open files.
kernels="src/base src/glass src/sound src/frame src/climate src/window src/house src/money src/meter src/study"
# shellcheck disable=SC2046
grep -nE '\b(printf|fprintf|fopen|exit|abort|assert|time|clock_gettime)\(' $(find $kernels -name '*.c') && fail "a kernel prints, opens a file, asks the clock or exits"

# Nor do they hang on the host's locale: letters by base/ascii.h, numbers in words by base/print.h.
# shellcheck disable=SC2046
grep -nE '<(ctype|strings|wctype|locale)\.h>|\b(strtod|atof|sscanf|toupper|tolower|strcasecmp|strncasecmp|setlocale|getenv)\(|\bv?snprintf\(.*%[-+ 0-9.*]*[aefgAEFG]' \
  $(find $kernels -name '*.[ch]' ! -name print.c ! -name ascii.h) && fail "a kernel hangs on the host's locale or environment"

# A GSL call that can raise stands where base/gsl_quiet.h holds the handler off; these cannot.
for f in $(grep -rlE "gsl_[a-z]" $kernels | grep -v base/gsl_quiet.h); do
  grep -v '^#' "$f" | grep -oE '\bgsl_[a-z0-9_A-Z]+' | grep -qvE '^gsl_(cdf_ugaussian_.*|sort|strerror|error_handler_t|quiet)$' || continue
  grep -q '"base/gsl_quiet.h"' "$f" || fail "$f calls GSL without base/gsl_quiet.h"
done

# A script of plots/ draws one picture: two writers of one name would feed it each the other's figures.
twice=$(grep -rhoE 'pw_plot_new\("[^"]*"' src --include='*.c' | sort | uniq -d)
[ -z "$twice" ] || fail "one script for two pictures: $twice"

# Includes point downward, of every header and every source. An internal header stands where it lies, a public one where this
# table says (DEVELOPERS.md: how the floors lie). On floor 5 writers and checks may use readers.
levels="base 0 embed 0 glass 1 sound 1 frame 1 window 2 climate 2 house 3 money 3 meter 3 study 4 job 5 out 5.1 check 5.2 cli 6 manual 7 page 7"
public="status base version base units base message base given base kinds base gas glass unit glass glazing glass shape window
lites window opening window package window facts window survey window fit window rating window weather climate place climate
zone house year house house_facts house rates money bill money comparison study"
# shellcheck disable=SC2046
awk -v levels="$levels" -v public="$public" '
BEGIN {
  n = split(levels, w, " "); for (i = 1; i < n; i += 2) level[w[i]] = w[i + 1]
  n = split(public, w, " "); for (i = 1; i < n; i += 2) home[w[i]] = w[i + 1]
}
FNR == 1 {
  split(FILENAME, p, "/"); here = p[2]
  if (p[1] == "include") { b = p[3]; sub(/\.h$/, "", b); here = home[b]; if (p[3] != "" && here == "") { print FILENAME " has no floor in this table"; bad = 1 } }
}
/^#include "/ {
  k = split($2, q, /["\/]/); dir = k > 3 ? q[2] : here; b = q[k - 1]; sub(/\.h$/, "", b)
  if (dir == "panewright") dir = home[b]
  if (dir == "gen" || !(here in level)) next
  if (!(dir in level)) { print FILENAME ":" FNR ": " $2 " has no floor"; bad = 1 }
  else if (dir != here && level[dir] >= level[here]) { print FILENAME ":" FNR ": " $2 " stands in " dir; bad = 1 }
}
END { exit bad }' $(find src include/panewright -name '*.[ch]') || fail "an include points upward or sideways"

# So do calls: what an object of a floor wants is defined on its own or below.
if [ -f "$build/libpanewright.a" ]; then
  nm -A $(find $kernels -name '*.c' | sed "s#^#$build/#; s#\.c\$#.o#") 2>/dev/null | awk -v levels="$levels" '
  BEGIN { n = split(levels, w, " "); for (i = 1; i < n; i += 2) level[w[i]] = w[i + 1] }
  { split($1, p, ":"); n = split(p[1], q, "/"); dir = q[n - 1]; kind = $(NF - 1); name = $NF
    if (kind == "U") want[dir " " name] = p[1]; else if (kind ~ /^[TDRBV]$/) at[name] = dir }
  END {
    for (k in want) { split(k, w, " "); d = at[w[2]]
      if (d != "" && d != w[1] && level[d] >= level[w[1]]) { print want[k] ": " w[2] " is of " d; bad = 1 } }
    exit bad }' || fail "a call points upward or sideways"
fi

# The year and what feeds it ask the C library for nothing that it rounds otherwise elsewhere (base/own_math.h).
years=$(find src/climate src/glass src/frame src/window src/house -name '*.c' ! -name '*_sound.c' | sed "s#^#$build/#; s#\.c\$#.o#")
if [ -f "$build/libpanewright.a" ]; then
  # shellcheck disable=SC2086
  nm -A -u $years | grep -wE 'a?(sin|cos|tan)h?|sincos|atan2|exp|exp2|expm1|log|log2|log10|log1p|pow|cbrt|hypot' &&
    fail "a function of the C library in the year or what feeds it: use base/own_math.h"
fi

if command -v clang-format >/dev/null 2>&1; then
  clang-format --dry-run -Werror $(sources) || fail "clang-format would change a file (make format)"
else
  echo "lint: clang-format is not installed, layout not checked"
fi
if command -v cppcheck >/dev/null 2>&1; then
  cppcheck --quiet -j "$(nproc)" --error-exitcode=1 --std=c11 --enable=warning,portability --inline-suppr -Iinclude -Isrc src || fail "cppcheck"
else
  echo "lint: cppcheck is not installed, not run"
fi
if [ -f "$build/libpanewright.a" ]; then
  n=$(size -A "$build/libpanewright.a" | awk '$1==".data"||$1==".bss"{s+=$2} END{print s+0}')
  [ "$n" = 0 ] || fail "the library holds $n bytes of writable data"
  nm -D --defined-only "$build/libpanewright.so.0" | awk '$3 !~ /^pw_/ {print $3; bad = 1} END {exit bad}' || fail "the shared library gives out a name without pw_"
fi
big=$(sources | xargs wc -l | awk '$2!="total" && $1>500 {print $2 " (" $1 ")"}')
[ -z "$big" ] || echo "lint: over 500 lines: $big"
exit $bad
