#!/bin/sh
# The command, tested by text. Usage: tests/cli.sh PROGRAM [CASE...]
# Each tests/cli/*.case holds, in this order and each led by a line "-- NAME":
#   -- run     a shell line; $PW is the program, $T an empty folder; standard input is empty
#   -- status  the exit status wanted
#   -- out     lines that standard output must hold, each as a whole or, led by "~ ", as an extended
#              regular expression that some line matches; "! " led: that no line may match
#   -- err     the same for standard error
# An empty or missing part is not looked at, except that "-- err" with nothing below wants silence.
set -u
PW=$(realpath "$1")
export PW
shift
[ $# -gt 0 ] || set -- tests/cli/*.case
passed=0 failed=0
part() { awk -v want="-- $2" '/^-- /{on = ($0 == want); next} on' "$1"; }
has() { grep -q "^-- $2\$" "$1"; }
holds() { # lines-file text-file case name
  while IFS= read -r want || [ -n "$want" ]; do
    case $want in
      '') ;;
      '~ '*) grep -qE -e "${want#\~ }" "$2" || { echo "   $4 has no line like: ${want#\~ }"; return 1; } ;;
      '! '*) ! grep -qE -e "${want#! }" "$2" || { echo "   $4 has a line like: ${want#! }"; return 1; } ;;
      *) grep -qxF -e "$want" "$2" || { echo "   $4 has no line: $want"; return 1; } ;;
    esac
  done <"$1"
}
W=$(mktemp -d) || exit 70
trap 'rm -rf "$W"' EXIT
# A temporary folder of its own: what a killed run left in the machine's is told, and is no business of a case.
mkdir "$W/tmp" && TMPDIR="$W/tmp" && export TMPDIR
for c; do
  [ -e "$c" ] || continue
  T="$W/t"; rm -rf "$T"; mkdir "$T"; export T
  part "$c" run >"$W/run"
  sh -c "$(cat "$W/run")" </dev/null >"$W/o" 2>"$W/e"
  got=$?
  want=$(part "$c" status | tr -d ' \n')
  bad=0
  [ "$got" = "${want:-0}" ] || { echo "   status $got, want ${want:-0}"; bad=1; }
  part "$c" out >"$W/lines"; holds "$W/lines" "$W/o" "$c" out || bad=1
  part "$c" err >"$W/lines"; holds "$W/lines" "$W/e" "$c" err || bad=1
  if has "$c" err && [ -z "$(part "$c" err)" ] && [ -s "$W/e" ]; then
    echo "   err should be silent"; bad=1
  fi
  if [ $bad = 0 ]; then
    passed=$((passed + 1))
  else
    failed=$((failed + 1))
    echo "!! $c"
    head -5 "$W/e" | sed 's/^/   e: /'
  fi
done
echo "cli: $passed passed, $failed failed"
[ $failed = 0 ]
