#!/bin/sh
# The standing attack. Usage: tests/faults.sh PROGRAM [PART...]
# Each tests/faults/PART.sh is one kind of attack; a new file there is run like the others. A part is a
# shell script read after tests/faults/lib, which says what it may use. Printed is a table: part, runs,
# how many did not hold. Random points come from a fixed seed. Parts run two at a time.
set -u
cd "$(dirname "$0")/.." || exit 70
PW=$(realpath "${1:-build/panewright}")
[ $# -gt 0 ] && shift
[ $# -gt 0 ] || set -- $(ls tests/faults/*.sh | sed 's|.*/||; s|\.sh$||')
W=$(mktemp -d) || exit 70
chmod 755 "$W"
trap 'rm -rf "$W"' EXIT
export PW W
${CC:-cc} -O1 -shared -fPIC -D_GNU_SOURCE -o "$W/shim.so" tests/faults/shim.c -ldl || exit 70
began=$(date +%s)
printf '%s\n' "$@" | xargs -P "${JOBS:-2}" -I PART sh -c '
  part=PART
  . tests/faults/lib
  begin
  . tests/faults/PART.sh
  finish' >"$W/log" 2>&1
cat "$W/log"
printf '\n%-22s %6s %6s %6s\n' attack runs broke s
bad=0
for part; do
  if [ -s "$W/$part.result" ]; then
    cat "$W/$part.result"
    read -r _ _ broke _ <"$W/$part.result"
    [ "$broke" = 0 ] || bad=1
  else
    printf '%-22s did not finish\n' "$part"
    bad=1
  fi
done
echo "$(($(date +%s) - began)) s"
exit $bad
