#!/bin/sh
# Every command line of README.md and DEVELOPERS.md: those of ```sh blocks are run, in their order, in an empty folder with the
# examples, but for the ones listed below with the reason; of commands in a line of text the targets of make and the options of
# panewright must be there. README's session (```text) is run by tests/readme_session.sh. Usage: tests/documented.sh PROGRAM FOLDER
set -u
PW=$(realpath "$1") T=$2 here=$PWD bad=0 ran=0 left=0
fail() { echo "documented: $*" >&2; bad=1; }

# What is not run here, a beginning of its line and why. Each must still stand in one of the two files.
cat >"$T/not_run" <<'EOF'
make demo	builds and installs packages; .ci/run does it
make test	this test is part of it
sbatch --array=0-999	root and a Slurm of its own: make test-cluster
cat out.*.csv	joins what sbatch made: make test-cluster
split -d -a 3 -n l/8 jobs.txt	for the tasks that follow: make test-cluster
sbatch --array=0-7	root and a Slurm of its own: make test-cluster
panewright street --join rec.???	joins what sbatch made: make test-cluster
mpirun -n 64	an MPI of 64 processes, which is not here: on paper
EOF

mkdir "$T/run" "$T/bin" || exit 70
ln -s "$PW" "$T/bin/panewright"
ln -s "$here/examples" "$T/run/examples"
PATH=$T/bin:$PATH
export PATH

# Statements of the blocks: lines put together until the shell can read them; a line that only notes is none.
awk '/^```sh$/ {on = 1; next} /^```/ {on = 0} on' README.md DEVELOPERS.md >"$T/lines"
statement="" n=0
: >"$T/all"
while IFS= read -r line || [ -n "$line" ]; do
  case $statement$line in '' | '#'*) continue ;; esac
  statement="$statement${statement:+
}$line"
  printf '%s\n' "$statement" | sh -n 2>/dev/null || continue
  n=$((n + 1))
  printf '%s\n' "$statement" >"$T/statement.$(printf %02d $n)"
  printf '%s\n' "$statement" >>"$T/all"
  statement=""
done <"$T/lines"
[ -z "$statement" ] || fail "no whole statement: $statement"
[ $n -ge 10 ] || fail "only $n statements found"

why_not() { # first line of a statement
  while IFS='	' read -r begins why; do
    case $1 in "$begins"*) printf '%s\n' "$why"; return 0 ;; esac
  done <"$T/not_run"
  return 1
}
for s in "$T"/statement.*; do
  first=$(head -1 "$s")
  if why=$(why_not "$first"); then
    left=$((left + 1))
    echo "not run: $first ($why)"
    continue
  fi
  # The same lines on fewer rows.
  sed 's/--example 100000/--example 1000/' "$s" >"$T/now.sh"
  (cd "$T/run" && sh -e "$T/now.sh") >"$T/o" 2>"$T/e" </dev/null || { fail "$first: $(head -1 "$T/e")"; continue; }
  ran=$((ran + 1))
done
while IFS='	' read -r begins why; do
  grep -qF -- "$begins" "$T/all" || fail "'$begins' is listed as not run ($why), and stands nowhere"
done <"$T/not_run"
[ "$(wc -l <"$T/run/results.csv")" = 1000 ] || fail "the batch of the documents gave no rows"

# In text: `make TARGET` and `panewright COMMAND --option`.
awk '/^```/ {block = !block; next} !block' README.md DEVELOPERS.md | tr '\n' ' ' >"$T/text"
grep -oE '`[^`]+`' "$T/text" | tr -d '`' | sed 's/^build\/panewright/panewright/' | sort -u >"$T/code"
sed -n 's/^\([a-z-]*\):.*## .*/\1/p' Makefile src/page/page.mk >"$T/targets"
targets=0
for target in $(sed -n 's/^make \([a-z-][a-z-]*\).*/\1/p' "$T/code"); do
  targets=$((targets + 1))
  grep -qx -- "$target" "$T/targets" || fail "make $target is no target"
done
commands=0
grep -E '^panewright [a-z]+( |$)' "$T/code" >"$T/of_us"
while read -r _ command rest; do
  "$PW" "$command" --help >"$T/help" 2>/dev/null </dev/null || { fail "panewright $command is no command"; continue; }
  commands=$((commands + 1))
  for option in $(printf '%s\n' "$rest" | grep -oE -e '--[a-z-]+'); do
    grep -qE -e "^  $option( |\$)" "$T/help" || fail "panewright $command has no option $option"
  done
done <"$T/of_us"
# The table of commands: options named in the row of a command are its own.
grep -E '^\| `panewright ' README.md | while IFS= read -r row; do
  command=$(printf '%s\n' "$row" | sed 's/^| `panewright \([a-z]*\).*/\1/')
  "$PW" "$command" --help >"$T/help" 2>/dev/null </dev/null || echo "panewright $command is no command"
  for option in $(printf '%s\n' "$row" | grep -oE -e '`--[a-z-]+' | tr -d '`'); do
    grep -qE -e "^  $option( |\$)" "$T/help" || echo "the table says $option of panewright $command"
  done
done >"$T/wrong"
[ ! -s "$T/wrong" ] || fail "$(head -1 "$T/wrong")"
# Each command of the program stands in that table.
"$PW" --help | sed -n 's/^  \([a-z]*\)  .*/\1/p' | while read -r command; do
  grep -qE "^\| \`panewright $command[ \`]" README.md || echo "$command"
done >"$T/missing"
[ ! -s "$T/missing" ] || fail "README's table has no row for: $(tr '\n' ' ' <"$T/missing")"
[ $targets -gt 5 ] && [ $commands -gt 5 ] || fail "found only $targets targets and $commands commands in the text"
echo "$ran run, $left not run, $targets targets, $commands commands in text"
exit $bad
