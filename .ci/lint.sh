#!/bin/sh
# House rules that a compiler does not check. Usage: .ci/lint.sh BUILD
set -u
build=${1:-build}
bad=0
fail() { echo "lint: $*" >&2; bad=1; }

for h in include/panewright/*.h; do
  cc -std=c11 -D_POSIX_C_SOURCE=200809L -Iinclude -Wall -Wextra -fsyntax-only -x c "$h" || fail "$h does not stand alone"
done

# Kernels (floors 0 to 4) neither print nor open files, and nothing below may include what stands above.
kernels="src/base src/glass src/frame src/climate src/window src/house src/money src/study"
grep -nE '\b(printf|fprintf|fopen|exit|abort|assert|time|clock_gettime)\(' $(find $kernels -name '*.c') && fail "a kernel prints, opens a file, asks the clock or exits"
grep -nE '#include "(job|out|check|cli)/' $(find $kernels -name '*.c' -o -name '*.h' | grep -E '^src') && fail "a kernel includes a reader, writer or command"
grep -nE '#include "cli/' src/job/*.c src/out/*.c src/check/*.c && fail "a reader or writer includes a command"

if command -v clang-format >/dev/null 2>&1; then
  clang-format --dry-run -Werror $(git ls-files '*.c' '*.h') || fail "clang-format would change a file (make format)"
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
fi
big=$(git ls-files '*.c' '*.h' | xargs wc -l | awk '$2!="total" && $1>500 {print $2 " (" $1 ")"}')
[ -z "$big" ] || echo "lint: over 500 lines: $big"
exit $bad
