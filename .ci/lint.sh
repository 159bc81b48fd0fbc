#!/bin/sh
# House rules that a compiler does not check. Usage: .ci/lint.sh BUILD
set -u
build=${1:-build}
bad=0
fail() { echo "lint: $*" >&2; bad=1; }

for h in include/panewright/*.h; do
  cc -std=c11 -D_POSIX_C_SOURCE=200809L -Iinclude -Wall -Wextra -fsyntax-only -x c "$h" || fail "$h does not stand alone"
done

# What is in git; a source archive has no git.
sources() { git ls-files '*.c' '*.h' 2>/dev/null || find src include tests -name '*.[ch]' | sort; }

# Kernels (floors 0 to 4) neither print nor open files.
kernels="src/base src/glass src/sound src/frame src/climate src/window src/house src/money src/meter src/study"
# shellcheck disable=SC2046
grep -nE '\b(printf|fprintf|fopen|exit|abort|assert|time|clock_gettime)\(' $(find $kernels -name '*.c') && fail "a kernel prints, opens a file, asks the clock or exits"

# Nor do they hang on the host's locale: letters by base/ascii.h, numbers in words by base/print.h.
# shellcheck disable=SC2046
grep -nE '<(ctype|strings|wctype|locale)\.h>|\b(strtod|atof|strcasecmp|strncasecmp|setlocale|getenv)\(|\bv?snprintf\(.*%[-+ 0-9.*]*[aefgAEFG]' \
  $(find $kernels -name '*.[ch]' ! -name print.c ! -name ascii.h) && fail "a kernel hangs on the host's locale or environment"

# A GSL call that can raise stands where base/gsl_quiet.h holds the handler off; these cannot.
for f in $(grep -rlE "gsl_[a-z]" $kernels | grep -v base/gsl_quiet.h); do
  grep -v '^#' "$f" | grep -oE '\bgsl_[a-z0-9_A-Z]+' | grep -qvE '^gsl_(cdf_ugaussian_.*|sort|strerror|error_handler_t|quiet)$' || continue
  grep -q '"base/gsl_quiet.h"' "$f" || fail "$f calls GSL without base/gsl_quiet.h"
done

# A script of plots/ draws one picture: two writers of one name would feed it each the other's figures.
twice=$(grep -rhoE 'pw_plot_new\("[^"]*"' src --include='*.c' | sort | uniq -d)
[ -z "$twice" ] || fail "one script for two pictures: $twice"

# Includes point downward. A public header stands on the floor of the kernel file of its name, one
# without such a file (types, constants) on the ground. On floor 5 writers and checks may use readers.
homes=$(for f in $(find $kernels -name '*.c'); do d=${f#src/}; b=${f##*/}; echo "${b%.c}=${d%%/*}"; done)
# shellcheck disable=SC2046
awk -v homes="$homes" '
function floor(d) { return index(" base glass sound frame window climate house money meter study job out check cli page ", " " d " ") ? level[d] : -1 }
BEGIN {
  split("base 0 embed 0 glass 1 sound 1 frame 1 window 2 climate 2 house 3 money 3 meter 3 study 4 job 5 out 5.1 check 5.2 cli 6 page 7", w, " ")
  for (i = 1; i in w; i += 2) level[w[i]] = w[i + 1]
  n = split(homes, h, "\n")
  for (i = 1; i <= n; i++) { split(h[i], kv, "="); home[kv[1]] = kv[2] }
}
FNR == 1 { split(FILENAME, p, "/"); here = p[2]; if (p[1] == "include") { b = p[3]; sub(/\.h$/, "", b); here = home[b] } }
/^#include "/ {
  split($2, q, /["\/]/); dir = q[2]; b = q[3]; sub(/\.h$/, "", b)
  if (dir == "panewright") dir = home[b]
  if (here != "" && dir != "" && dir != here && floor(dir) >= floor(here)) { print FILENAME ":" FNR ": " $2 " stands in " dir; bad = 1 }
}
END { exit bad }' $(find src include -name '*.[ch]') || fail "an include points upward or sideways"

if command -v clang-format >/dev/null 2>&1; then
  clang-format --dry-run -Werror $(sources) || fail "clang-format would change a file (make format)"
else
  echo "lint: clang-format is not installed, layout not checked"
fi
if command -v cppcheck >/dev/null 2>&1; then
  cppcheck --quiet --error-exitcode=1 --std=c11 --enable=warning,portability --inline-suppr -Iinclude -Isrc src || fail "cppcheck"
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
