# A limit on the size of files: the signal of it must not kill, and nothing may come out cut. Once with
# standard output under the limit, too, once with only the files.
for OUT in /dev/null ''; do
  for blocks in 0 1 2 6 12 24 48 64 128; do # of 512 bytes
    [ $blocks = 0 ] && silent=1 || silent=0 # no room for a line of error
    for m in glass plots sheet order claim new; do
      fresh
      (ulimit -f $blocks; make $m; exit $rc)
      rc=$?
      judge "limit of $blocks blocks" $m
    done
  done
done
silent=0
