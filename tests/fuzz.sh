#!/bin/sh
# Feeds targets with changed bytes, one after the other. Usage: tests/fuzz.sh FOLDER [TARGET...]
# FOLDER/all is the program; beside it each target keeps its corpus, its log and what it broke on. FUZZ_SECONDS each, or,
# with FUZZ_RUNS, that many runs over all by their shares in tests/fuzz/targets.def (whole jobs and years: FUZZ_WHOLE).
set -u
B=$1
shift
def=tests/fuzz/targets.def
[ $# -gt 0 ] || set -- $(sed -n 's/^TARGET(\(.*\),.*/\1/p' $def)
sum=$(awk -F'[(,)]' '/^TARGET/ {s += $3} END {print s}' $def)
bad=0
printf '%-14s %11s %7s %9s %6s %7s\n' target runs s runs/s cov corpus
for t; do
  share=$(awk -F'[(,) ]+' -v t="$t" '$1 == "TARGET" && $2 == t {print $3}' $def)
  [ -n "$share" ] || { echo "fuzz: no target is called $t" && exit 2; }
  if [ -n "${FUZZ_RUNS:-}" ]; then
    limit=-runs=$(awk -v n="$FUZZ_RUNS" -v w="${FUZZ_WHOLE:-100000}" -v s="$share" -v a="$sum" \
      'BEGIN {printf "%.0f", s ? n * s / a : w}')
  else
    limit=-max_total_time=${FUZZ_SECONDS:-60}
  fi
  long=4096
  [ "$t" != job ] || long=32768
  ln -sf all "$B/$t"
  mkdir -p "$B/$t.kept"
  rm -rf "$B/$t.begin"
  sh tests/fuzz/seeds.sh "$t" "$B/$t.begin"
  began=$(date +%s)
  "$B/$t" "$limit" -max_len=$long -timeout=60 -close_fd_mask=3 -print_final_stats=1 -dict="$B/$t.begin/words.dict" \
    -artifact_prefix="$B/$t." "$B/$t.kept" "$B/$t.begin/seeds" >"$B/$t.log" 2>&1 </dev/null
  rc=$?
  awk -v t="$t" -v s=$(($(date +%s) - began)) '
    {for (i = 1; i < NF; i++) {if ($i == "cov:") cov = $(i + 1); if ($i == "corp:") {split($(i + 1), c, "/"); n = c[1]}}}
    /number_of_executed_units/ {runs = $2}
    END {printf "%-14s %11d %7d %9.0f %6d %7d\n", t, runs, s, runs / (s ? s : 1), cov, n}' "$B/$t.log"
  [ $rc = 0 ] || { bad=1 && echo "!! $t: ended with $rc, see $B/$t.log" && grep -m3 -E 'ERROR|runtime error|Test unit' "$B/$t.log"; }
done
exit $bad
