# Helpers that hang, flood, fork, lie or are not there: an error in time, nothing left, nobody alive.
B=$M/bin
mkdir "$B"
real=$(command -v gnuplot)
g() { cat >"$B/gnuplot"; chmod +x "$B/gnuplot"; }
mark="7$$"
hurt() { # label, seconds on a quiet machine (20 more are given), maker, any
  fresh
  MORE="--helper-seconds 1"
  began=$(date +%s)
  OLD=$PATH
  PATH=$B:$PATH
  make "${3:-glass}"
  PATH=$OLD
  MORE=
  took=$(($(date +%s) - began))
  [ $took -le $((20 + $2)) ] || { bad "$1: took $took s"; return; }
  sleep 0.1
  if grep -lazq "^sleep.$mark" /proc/[0-9]*/cmdline 2>/dev/null; then
    bad "$1: a process of the helper lives on"
    return
  fi
  if [ "${4:-fail}" = fail ] && [ $rc = 0 ]; then bad "$1: status 0"; return; fi
  judge "$1" "${3:-glass}"
}
s="#!/bin/sh"
printf '%s\nexec sleep %s\n' "$s" $mark | g;                                  hurt "hangs, reads nothing" 4
printf '%s\nexec sleep %s\n' "$s" $mark | g;                                  hurt "hangs, reads nothing" 4 sheet
printf '%s\ncat >/dev/null; exec sleep %s\n' "$s" $mark | g;                  hurt "hangs after reading" 4
printf '%s\n%s "$@"; exec sleep %s\n' "$s" "$real" $mark | g;                 hurt "hangs after the picture" 4
printf '%s\nexec >&- 2>&-; sleep %s\n' "$s" $mark | g;                        hurt "closes its output and hangs" 4
printf '%s\ntrap "" TERM INT HUP; sleep %s; sleep %s\n' "$s" $mark $mark | g; hurt "ignores signals" 4
printf '%s\nsleep %s & sleep %s & cat >/dev/null; exit 0\n' "$s" $mark $mark | g; hurt "leaves children, makes nothing" 4
printf '%s\nsetsid sleep %s & %s "$@"\n' "$s" $mark "$real" | g;              hurt "a child in a session of its own" 4 glass any
printf '%s\n(sleep %s &) ; exec %s "$@"\n' "$s" $mark "$real" | g;            hurt "a grandchild with its pipe" 4 glass any
printf '%s\nwhile :; do echo xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx; done\n' "$s" | g; hurt "floods its output" 6
printf '%s\nexec cat /dev/zero\n' "$s" | g;                                   hurt "asks for a device it may not read" 6
printf '%s\nwhile :; do echo x >&2; done\n' "$s" | g;                         hurt "floods its errors" 5
printf '%s\nexit 0\n' "$s" | g;                                               hurt "makes nothing" 4
printf '%s\nexit 3\n' "$s" | g;                                               hurt "fails" 4
printf '%s\nkill -SEGV $$\n' "$s" | g;                                        hurt "dies" 4
printf '%s\necho "<svg>"\n' "$s" | g;                                         hurt "a picture without an end" 4
printf '%s\n%s "$@" | head -c 2000\n' "$s" "$real" | g;                       hurt "a picture cut short" 4
printf '%s\n%s "$@" >x; head -c 2000 x; tail -c 9 x; exit 1\n' "$s" "$real" | g; hurt "whole to look at, but failed" 4
printf '#!/nowhere/sh\n' | g;                                                 hurt "no interpreter" 4
printf 'no program\n' | g;                                                    hurt "no program at all" 4
printf '%s\nln -s "%s" x; mkdir -p a/b/c; touch a/b/c/d; chmod 0 a/b; exit 1\n' "$s" "$J" | g; hurt "litters its folder" 4
[ -f "$J/job.csv" ] && ok || bad "cleaning a helper's folder followed a link"
chmod -x "$B/gnuplot"; rm "$B/gnuplot"; mkdir "$B/gnuplot";                   PATH=$PATH hurt "a folder of that name" 4 glass any
rm -r "$B/gnuplot"
printf '%s\nexec sleep %s\n' "$s" $mark >"$B/weasyprint"; chmod +x "$B/weasyprint"
hurt "converter hangs" 6 pdf
rm "$B/weasyprint"
for p in /nowhere '' . relative:bin; do
  fresh
  (PATH=$p; export PATH; "$PW" glass '3mm clear' --plot "$D/g.svg" >"$M/out" 2>"$M/err")
  rc=$?
  [ $rc = 73 ] && ok || bad "PATH '$p': status $rc"
done
# where the kernel gives no fence the helper runs, and --verbose says so
if ${CC:-cc} -O1 -o "$M/no_fence" tests/faults/no_fence.c 2>/dev/null && "$M/no_fence" true; then
  fresh
  PRE=$M/no_fence MORE=--verbose
  make glass
  PRE= MORE=
  if [ $rc = 0 ] && grep -q 'NOT fenced.*NOT fenced' "$M/err"; then ok; else bad "without fences: status $rc, $(head -1 "$M/err")"; fi
else
  skip "no filter of calls here: a kernel without fences cannot be played"
fi
