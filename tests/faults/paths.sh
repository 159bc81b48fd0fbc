# Names that mean something to a shell, a helper, a printf or a file system.
long=$(printf '%0251d' 0 | tr 0 n)
try() { # name
  case $1 in -* | *owned* | *n%* | *b*) kinds="svg pdf" ;; *) kinds=svg ;; esac
  for e in $kinds; do
    fresh
    (cd "$D" && "$PW" glass '3mm clear' --plot "$1.$e" >/dev/null 2>"$M/err")
    rc=$?
    n=$(find "$D" -mindepth 1 -print0 | tr -dc '\0' | wc -c)
    if [ $rc = 0 ]; then
      if [ -s "$D/$1.$e" ] && [ "$n" = 1 ]; then ok; else bad "plot to $1.$e: status 0, not there"; fi
    elif [ "$n" = 0 ] && [ -s "$M/err" ]; then
      ok
    else
      bad "plot to $1.$e: status $rc, $n files"
    fi
    [ ! -e "$M/owned" ] || { bad "plot to $1.$e ran a command"; rm -f "$M/owned"; }
  done
  fresh
  case $1 in */*) return ;; esac
  cp -r "$J" "$D/$1" 2>/dev/null || return
  cp examples/sections/both_sill_lip_foam.csv "$D/$1/$1.csv" 2>/dev/null
  (cd "$D" && "$PW" fit -- "./$1" >/dev/null 2>"$M/err" && "$PW" section "./$1/$1.csv" --plot x.svg >/dev/null 2>"$M/err")
  rc=$?
  if [ $rc = 0 ] && grep -q '</svg>' "$D/x.svg"; then ok; elif [ $rc != 0 ] && [ -s "$M/err" ]; then ok; else bad "job and section named $1: status $rc"; fi
  [ ! -e "$M/owned" ] || { bad "a section named $1 ran a command"; rm -f "$M/owned"; }
}
# the shell has no array: names stand one a line, \n for a line end inside
while IFS= read -r name; do
  try "$(printf '%b.' "$name" | sed 's/\.$//')"
done <<N
|touch owned;
| touch $M/owned;
\`touch $M/owned\`
\$(touch $M/owned)
'; system('touch $M/owned'); '
"; system("touch $M/owned"); "
-
--
-o
--help
-e set output
%s%n%d
%100000d
a b  c
*
?
~
~root
#
# x
a;b
a&b
a>b
<a
a,b
@x
\\\\\\\\
EOD
\$D
{/Bold x}
é
測試
a\\tb
a\\nb
\\033[31m
\\0377\\0376
$long
${long}n
$long$long
...
nowhere/x
/nowhere/x
N
rm -f "$M/owned"
for bad_name in "$D" "$D/" . / '' "$D/ring" "$D/x/" "$D/file/x.svg" /dev/full/x.svg; do
  fresh
  ln -s ring "$D/ring"
  echo old >"$D/file"
  for o in --order; do
    "$PW" fit "$J" $o "$bad_name" >/dev/null 2>"$M/err"
    rc=$?
    if [ $rc = 73 ] && [ -s "$M/err" ] && [ "$(cat "$D/file")" = old ] && [ "$(ls -A "$D" | wc -l)" = 2 ]; then ok; else bad "order to '$bad_name': status $rc"; fi
  done
done
