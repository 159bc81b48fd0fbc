# Read-only and foreign folders and files. Root may do everything, so as root an unknown user is played.
if [ "$(id -u)" = 0 ]; then
  as="setpriv --reuid 54321 --regid 54321 --clear-groups"
  $as true 2>/dev/null || { skip "cannot become another user"; return 0; }
else
  as=
fi
own() { [ -z "$as" ] || chown -R 54321:54321 "$@"; }
own "$TMPDIR"
PRE=$as
for m in $makers; do
  fresh; own "$TMPDIR"; chmod 555 "$D"; make $m;                    judge "folder of others" $m
  fresh; own "$TMPDIR" "$D"; chmod 555 "$D"; make $m;               judge "own folder, read-only" $m
  fresh; own "$TMPDIR"; chmod 0 "$D"; make $m; chmod 755 "$D";      judge "folder without any leave" $m
  fresh; own "$D"; chmod 555 "$TMPDIR"; make $m; chmod 755 "$TMPDIR"; judge "no room for helpers" $m
done
old=1
for m in glass sheet order claim; do
  target $m
  fresh; own "$TMPDIR" "$D"; age $m; own "$D"; chmod 444 "$D/$target"; make $m; judge "own file, read-only" $m
  fresh; own "$TMPDIR" "$D"; age $m; chmod 644 "$D/$target"; make $m;           judge "file of others in an own folder" $m
  fresh; own "$TMPDIR"; age $m; own "$D/$target"; chmod 555 "$D"; make $m;      judge "own file in a folder of others" $m
  fresh; own "$TMPDIR" "$D"; age $m; chmod 666 "$D/$target"; make $m;           judge "file of others, open to all" $m
done
old=0
chmod -R go-rwx "$J"
for m in plots sheet order claim; do
  fresh; own "$TMPDIR" "$D"
  make $m
  { [ -z "$as" ] || [ $rc = 66 ]; } && ok || bad "job without leave to read, $m: status $rc"
done
chmod -R a+rX "$J"
PRE=
if mount -t tmpfs -o ro none "$D" 2>/dev/null; then
  umount "$D"
  for m in $makers; do
    fresh
    mount -t tmpfs -o ro none "$D"
    make $m
    judge "mounted read-only" $m
    umount "$D"
  done
else
  skip "no leave to mount a read-only file system"
fi
# mode is kept, also an odd one; a new file gets what umask says
for mode in 600 640 644 660 666 604; do
  fresh
  echo old >"$D/o.csv"
  chmod $mode "$D/o.csv"
  make order
  [ $rc = 0 ] && [ "$(stat -c %a "$D/o.csv")" = $mode ] && ok || bad "mode $mode became $(stat -c %a "$D/o.csv")"
done
for mask in 022 027 077 002; do
  fresh
  (umask $mask; make order)
  [ "$(stat -c %a "$D/o.csv")" = "$(printf '%o' $((0666 & ~0$mask)))" ] && ok || bad "umask $mask gave $(stat -c %a "$D/o.csv")"
done
if [ -n "$as" ]; then # root replaces a file of another user and leaves it his
  fresh
  echo old >"$D/o.csv"
  chown 54321:54321 "$D/o.csv"
  make order
  [ "$(stat -c %u:%g "$D/o.csv")" = 54321:54321 ] && ok || bad "the owner changed"
fi
if [ "$(cat /proc/sys/fs/protected_symlinks 2>/dev/null)" = 1 ] && [ -n "$as" ]; then
  fresh # a link laid by another in a folder open to all is not followed
  chmod 1777 "$D"
  echo old >"$M/victim"
  for to in "$M/victim" "$M/victim2"; do
    $as ln -sf "$to" "$D/o.csv"
    make order
    [ $rc = 73 ] && [ "$(cat "$M/victim")" = old ] && [ ! -e "$M/victim2" ] && ok || bad "a foreign link was followed: status $rc"
  done
else
  skip "links of others are not held back by this kernel"
fi
