# Forty hostile texts in every field of every file, through the commands that read it.
mkdir "$M/hostile"
JOBS=2 python3 tests/faults/hostile.py "$PW" "$M/hostile" >"$M/told" 2>&1
grep -v '^[0-9]* [0-9]*$' "$M/told"
told=$(tail -1 "$M/told")
case $told in
  *[!0-9\ ]* | '') bad "it did not end" ;;
  *) runs=${told% *} broken=${told#* } ;;
esac
