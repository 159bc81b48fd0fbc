# Every call that writes fails once, with a full disk; then small real file systems and /dev/full.
sweep() { # calls errno label step
  for m in $makers; do
    n=1
    while :; do
      rm -f "$M/hit"
      PRE="env LD_PRELOAD=$W/shim.so SHIM_CALLS=$1 SHIM_ERRNO=$2 SHIM_AT=$n SHIM_NOTE=$M/hit"
      attack "$3 at call $n" $m
      PRE=
      [ -e "$M/hit" ] || break
      n=$((n + ${4:-1}))
    done
  done
}
makers_all=$makers
makers="glass order claim new"
for old in 0 1; do
  sweep write,open,mkdir,fchmod 28 "disk full"
  sweep fsync,rename,link 5 "input/output error"
done
sweep close 122 "quota"
makers="plots" # twelve pictures, one like the other
old=0
sweep write,open,mkdir,fchmod 28 "disk full" 7
makers=$makers_all
if mount -t tmpfs -o size=4k none "$D" 2>/dev/null; then
  umount "$D"
  for kb in 4 16 40 160 320; do
    for m in glass plots sheet order new; do
      fresh
      mount -t tmpfs -o size=${kb}k none "$D"
      make $m
      judge "tmpfs of $kb kB" $m
      umount "$D"
    done
  done
  fresh
  mount -t tmpfs -o size=4k none "$TMPDIR"
  dd if=/dev/zero of="$TMPDIR/fill" bs=4k count=1 2>/dev/null
  make pdf
  if [ $rc = 0 ] || [ $rc = 73 ] || [ $rc = 74 ]; then ok; else bad "full TMPDIR: status $rc"; fi
  umount "$TMPDIR"
else
  skip "no leave to mount a small file system: only failing calls and /dev/full"
fi
for m in glass sheet order claim; do # a link to a full device, and standard output on one
  fresh
  target $m
  ln -s /dev/full "$D/$target"
  make $m
  [ $rc = 74 ] && ok || bad "output on /dev/full, $m: status $rc"
  fresh
  target $m
  [ -s "$M/want/$m.out" ] || continue # prints nothing
  case $m in
    glass) "$PW" glass '3mm clear' --plot "$D/$target" ;;
    order) "$PW" fit "$J" --order "$D/$target" ;;
    claim) "$PW" rebate "$J" --program examples/programs/juniper_flat_power_2026.csv -o "$D/$target" ;;
  esac >/dev/full 2>"$M/err"
  rc=$?
  judge "standard output on /dev/full" $m
done
