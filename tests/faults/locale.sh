# German and Turkish: decimal comma, dotless i. Every text has the same bytes as without.
L=$M/locale
mkdir "$L"
for l in de_DE tr_TR; do
  localedef -c -i $l -f UTF-8 "$L/$l.UTF-8" 2>/dev/null
done
if [ ! -d "$L/tr_TR.UTF-8" ]; then
  skip "localedef makes no locale here (Debian: locales)"
  return 0
fi
say() { # every command, as text and as data
  h=examples/harrow_bend
  "$PW" fit $h --all && "$PW" fit $h --format json && "$PW" compare $h --quick && "$PW" compare $h --quick --units si &&
    "$PW" compare $h --quick --format json && "$PW" compare $h --quick --format csv && "$PW" compare $h --quick --range --draws 64 &&
    "$PW" year $h --quick && "$PW" glass '3mm clear / 12.7mm argon 90% / 3mm clear coat ag2@3' --format json &&
    "$PW" section examples/sections/both_sill_lip_foam.csv && "$PW" house examples/std140/600.csv && "$PW" tables && "$PW" climates &&
    "$PW" check --group glazing && "$PW" rank $h --no-years --panes 2 --quick && "$PW" batch --example 40 | "$PW" batch --energy monthly && "$PW" --help && "$PW" fit --help
}
say >"$M/plain" 2>&1 || bad "the commands fail in the plain locale: $(tail -1 "$M/plain")"
for l in de_DE tr_TR; do
  for v in LC_ALL LC_NUMERIC; do
    (export LOCPATH="$L" "$v=$l.UTF-8"; say) >"$M/there" 2>&1
    cmp -s "$M/plain" "$M/there" && ok || bad "$v=$l changes text: $(diff "$M/plain" "$M/there" | head -3 | tr '\n' ' ')"
  done
  for m in glass sheet order claim; do
    PRE="env LOCPATH=$L LC_ALL=$l.UTF-8 LANGUAGE=de"
    attack "$l" $m
    PRE=
  done
done
