#!/bin/sh
# Runs the test programs given and the command cases, JOBS at a time, and adds up. What took longest last
# time starts first, so that the last to end is short. Usage: tests/run.sh PROGRAM...
# CASES names other cases than all of tests/cli.
set -u
build=${BUILD:-build}
W=$(mktemp -d) || exit 70
trap 'rm -rf "$W"' EXIT
export W build
times=$build/tests/times
touch "$times"
for c in ${CASES-tests/cli/*.case}; do
  [ -e "$c" ] && set -- "$@" "$c"
done
# PART=quick leaves out what tests/long names (a program by tests/NAME, wherever it was built), PART=long runs that alone.
case ${PART:-} in quick) keep=-v ;; long) keep= ;; *) keep=none ;; esac
if [ "$keep" != none ]; then
  # shellcheck disable=SC2046,SC2086
  set -- $(printf '%s\n' "$@" | sed "s#^$build/tests/#tests/#" | grep $keep -xF -f tests/long | sed "s#^tests/test_#$build/&#")
  echo "PART=$PART: $# programs and cases, by tests/long"
fi
printf '%s\n' "$@" | awk '
  FILENAME != "-" {took[$2] = $1; next}
  {print ($1 in took ? took[$1] : 1e9), NR, $1}' "$times" - | sort -k1,1nr -k2,2n | cut -d' ' -f3 >"$W/order"
xargs -P "${JOBS:-$(nproc 2>/dev/null || echo 2)}" -I TEST sh -c '
  log=$W/$(echo TEST | tr / _)
  began=$(date +%s%N)
  case TEST in
    *.case) sh tests/cli.sh "$build/panewright" TEST ;;
    *) TEST ;;
  esac >"$log" 2>&1 </dev/null
  echo $? >"$log.rc"
  echo $((($(date +%s%N) - began) / 1000000)) TEST >"$log.ms"' <"$W/order"
cat "$W"/*.ms >"$times" 2>/dev/null
passed=0 failed=0 skipped=0 cases=0
for t; do
  log=$W/$(echo "$t" | tr / _)
  rc=$(cat "$log.rc" 2>/dev/null || echo "no status")
  case $t in
    *.case)
      cases=$((cases + 1))
      if [ "$rc" = 0 ]; then passed=$((passed + 1)); else failed=$((failed + 1)); grep -v '^cli: ' "$log"; fi
      continue ;;
  esac
  echo "== $t"
  grep -vE '^\[ (RUN     |      OK) \]' "$log"
  p=$(sed -n 's/^\[  PASSED  \] \([0-9]*\) test.*/\1/p' "$log" | awk '{s+=$1} END{print s+0}')
  f=$(grep -cE '^\[  FAILED  \] [A-Za-z_]|^\[  ERROR   \] [A-Za-z_]' "$log")
  s=$(sed -n 's/^\[  SKIPPED \] \([0-9]*\) test.*/\1/p' "$log" | awk '{s+=$1} END{print s+0}')
  passed=$((passed + p)) skipped=$((skipped + s))
  if [ "$rc" != 0 ]; then
    [ "$f" -gt 0 ] || f=1
    failed=$((failed + f))
    echo "!! $t ended with status $rc"
  fi
done
echo "== tests/cli: $cases cases"
echo
echo "$passed passed, $failed failed, $skipped skipped"
[ "$failed" = 0 ] && [ "$passed" -gt 0 ]
