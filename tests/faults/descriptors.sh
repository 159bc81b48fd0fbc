# Closed standard descriptors in every combination, and few descriptors.
for shut in 0 1 2 01 02 12 012; do
  for m in $makers; do
    fresh
    target $m
    redirect=
    case $shut in *0*) redirect="$redirect <&-" ;; esac
    case $shut in *1*) redirect="$redirect >&-" ;; *) redirect="$redirect >$M/out" ;; esac
    case $shut in *2*) redirect="$redirect 2>&-"; silent=1 ;; *) redirect="$redirect 2>$M/err"; silent=0 ;; esac
    case $m in
      glass) set -- glass '3mm clear' --plot "$D/$target" ;;
      plots) set -- compare "$J" --quick --plots "$D/$target" ;;
      sheet) set -- sheet "$J" --no-range -o "$D/$target" ;;
      order) set -- fit "$J" --order "$D/$target" ;;
      claim) set -- rebate "$J" --program examples/programs/juniper_flat_power_2026.csv -o "$D/$target" ;;
      new) set -- new "$D/$target" ;;
    esac
    eval '"$PW" "$@"' "$redirect"
    rc=$?
    # what was to be printed and cannot be is a failure
    case $shut in *1*) [ $rc != 0 ] || [ ! -s "$M/want/$m.out" ] || bad "$m: closed output, status 0" ;; esac
    judge "closed $shut" $m
  done
done
silent=0
for n in 3 4 5 6 7 8 9 10 11 12 13 14 16 20; do
  for m in glass order claim new; do
    fresh
    (ulimit -n $n; make $m; exit $rc) 2>/dev/null
    rc=$?
    [ $rc = 127 ] && continue # the shell itself had too few
    silent=1
    judge "$n descriptors" $m
  done
done
