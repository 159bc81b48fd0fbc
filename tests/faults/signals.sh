# Interrupted, terminated, hung up, killed: at random points (seed 19), and at each call that writes.
# After a kill, the old or the new file is whole; only names that tell what they are may be left.
whole_or_old() { # label name
  target "$2"
  if [ ! -e "$D/$target" ] || [ "$(cat "$D/$target" 2>/dev/null)" = old ] ||
    diff -rq "$M/want/$target" "$D/$target" >/dev/null 2>&1; then return 0; fi
  # of a folder, each file by itself
  [ -d "$D/$target" ] && for f in "$D/$target"/*; do
    [ ! -e "$f" ] || cmp -s "$f" "$M/want/$target/${f##*/}" || { bad "$1 $2: $f is torn"; return 1; }
  done && return 0
  bad "$1 $2: neither old nor new"
  return 1
}
old=1
points=$(awk 'BEGIN { srand(19); for (i = 0; i < 60; i++) printf "%d:%.3f ", int(4 * rand()), 0.9 * rand() }')
i=0
for p in $points; do
  i=$((i + 1))
  case ${p%%:*} in 0) s=INT ;; 1) s=TERM ;; 2) s=HUP ;; *) s=KILL ;; esac
  case $((i % 4)) in 0) m=glass ;; 1) m=plots ;; 2) m=sheet ;; *) m=pdf ;; esac
  fresh
  age $m
  PRE="env --default-signal=INT,TERM,HUP timeout -s $s ${p#*:}"
  make $m
  PRE=
  sleep 0.05
  if [ $m = pdf ]; then
    if [ "$(cat "$D/s.pdf")" != old ] && [ "$(tail -c 6 "$D/s.pdf" | tr -d '\n')" != '%%EOF' ]; then
      bad "$s after ${p#*:} s: a torn PDF"
      continue
    fi
  else
    whole_or_old "$s after ${p#*:} s" $m || continue
  fi
  left=$(find "$D" "$TMPDIR" -name '*panewright-*')
  if [ $s = KILL ]; then
    ok
  elif [ -n "$left" ]; then
    bad "$s after ${p#*:} s, $m: left $left"
  else
    ok
  fi
done
for m in glass order claim new; do
  n=1
  while :; do
    rm -f "$M/hit"
    fresh
    age $m
    PRE="env LD_PRELOAD=$W/shim.so SHIM_CALLS=write,open,fsync,rename,link,close,fchmod,mkdir SHIM_ERRNO=kill SHIM_AT=$n SHIM_NOTE=$M/hit"
    make $m
    PRE=
    [ -e "$M/hit" ] || break
    whole_or_old "killed at call $n" $m && ok
    n=$((n + 1))
  done
done 2>/dev/null
# what it left is told by the next run, which is not disturbed by it
fresh
age glass
PRE="env LD_PRELOAD=$W/shim.so SHIM_CALLS=rename SHIM_ERRNO=kill SHIM_AT=1"
make glass 2>/dev/null
PRE=
make glass
if [ $rc = 0 ] && grep -q 'was left by a run that was killed' "$M/err" && cmp -s "$D/g.svg" "$M/want/g.svg"; then
  ok
else
  bad "what a kill left is not told"
fi
