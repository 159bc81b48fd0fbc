#!/bin/sh
# Runs the test programs given, then the command cases, and adds up. Usage: tests/run.sh PROGRAM...
set -u
build=${BUILD:-build}
log=$(mktemp) || exit 70
trap 'rm -f "$log"' EXIT
passed=0 failed=0 skipped=0 broken=0
for t in "$@"; do
  echo "== $t"
  "$t" >"$log" 2>&1
  rc=$?
  grep -vE '^\[ (RUN     |      OK) \]' "$log"
  p=$(sed -n 's/^\[  PASSED  \] \([0-9]*\) test.*/\1/p' "$log" | awk '{s+=$1} END{print s+0}')
  f=$(grep -cE '^\[  FAILED  \] [A-Za-z_]|^\[  ERROR   \] [A-Za-z_]' "$log")
  s=$(sed -n 's/^\[  SKIPPED \] \([0-9]*\) test.*/\1/p' "$log" | awk '{s+=$1} END{print s+0}')
  passed=$((passed + p)) skipped=$((skipped + s))
  if [ "$rc" -ne 0 ]; then
    [ "$f" -gt 0 ] || f=1
    failed=$((failed + f)) broken=1
    echo "!! $t ended with status $rc"
  fi
done
if [ -d tests/cli ]; then
  echo "== tests/cli"
  sh tests/cli.sh "$build/panewright" >"$log" 2>&1 || broken=1
  cat "$log"
  p=$(sed -n 's/^cli: \([0-9]*\) passed, \([0-9]*\) failed$/\1/p' "$log")
  f=$(sed -n 's/^cli: \([0-9]*\) passed, \([0-9]*\) failed$/\2/p' "$log")
  passed=$((passed + ${p:-0})) failed=$((failed + ${f:-1}))
fi
echo
echo "$passed passed, $failed failed, $skipped skipped"
[ "$broken" = 0 ] && [ "$failed" = 0 ] && [ "$passed" -gt 0 ]
