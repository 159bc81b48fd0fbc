# Every command with the Nth allocation failing, alone and with all after it.
python3 tests/faults/memory.py "$PW" "$W/shim.so" "$M" "${POINTS:-9}" >"$M/swept" 2>&1
grep -v '^[0-9]* [0-9]*$' "$M/swept"
swept=$(tail -1 "$M/swept")
case $swept in
  *[!0-9\ ]* | '') bad "the sweep did not end" ;;
  *) runs=${swept% *} broken=${swept#* } ;;
esac
