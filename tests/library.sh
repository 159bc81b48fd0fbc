#!/bin/sh
# The library as a host meets it. Usage: tests/library.sh names|hosts|manual BUILD
#   names   what leaves the shared library, what the archive wants of others, against the lists beside this
#   hosts   examples/c built as C and C++, shared and static, by pkg-config against what `make tree` installed, with what the
#           command prints for the same
#   manual  pages and completions name every command and option
set -u
part=$1 build=$2
tree=$(realpath "$build/tests/tree") || exit 1
bad=0
fail() { echo "$*"; bad=1; }
T=$(mktemp -d) || exit 70
trap 'rm -rf "$T"' EXIT
san=""
nm "$build/libpanewright.a" 2>/dev/null | grep -q __asan_ && san="-fsanitize=address,undefined"
nm "$build/libpanewright.a" 2>/dev/null | grep -q __gcov_ && san="$san --coverage"

names() {
  nm -D --defined-only "$tree/usr/lib/libpanewright.so.0" | awk '$3 !~ /^__?(asan|ubsan|gcov|bss|edata|end)/ {print $3}' | LC_ALL=C sort >"$T/out"
  diff tests/library_exports.txt "$T/out" >"$T/d" || { fail "what leaves the library is not tests/library_exports.txt:"; cat "$T/d"; }
  [ "$(wc -l <"$T/out")" -gt 20 ] || fail "nothing leaves the library"
  grep -v '^pw_' "$T/out" && fail "a name without pw_"
  [ -z "$san" ] || return
  nm "$build/libpanewright.a" 2>/dev/null | awk '$1 == "U" {u[$2]} NF == 3 && $2 != "U" {d[$3]} END {for (n in u) if (!(n in d)) print n}' |
    sed -E 's/^__(.*)_chk$/\1/; s/^__isoc99_//; s/^__isoc23_//' | grep -vE '^(gsl_|cholmod_|_GLOBAL_OFFSET_TABLE_$|__stack_chk_fail$)' | LC_ALL=C sort -u >"$T/wants"
  LC_ALL=C comm -23 "$T/wants" tests/library_wants.txt | sed 's/^/the archive wants what tests\/library_wants.txt has not: /' | grep . && bad=1
  LC_ALL=C comm -13 "$T/wants" tests/library_wants.txt | sed 's/^/wanted by nothing any more: /' | grep . && bad=1
}

# A compiler for a language, static or shared: prints what the two examples print.
host() { # NAME COMPILER STANDARD LANGUAGE static|shared
  flags=$(PKG_CONFIG_PATH=$tree/usr/lib/pkgconfig PKG_CONFIG_SYSROOT_DIR=$tree PKG_CONFIG_ALLOW_SYSTEM_CFLAGS=1 PKG_CONFIG_ALLOW_SYSTEM_LIBS=1 \
    pkg-config --cflags --libs $([ "$5" = static ] && echo --static) panewright) || { fail "pkg-config knows no panewright"; return; }
  [ "$5" = static ] && flags=$(echo "$flags" | sed "s#-lpanewright#$tree/usr/lib/libpanewright.a#")
  for e in rate house_year; do
    # shellcheck disable=SC2086
    $2 -std=$3 -Wall -Wextra -Wpedantic -Werror $san -x $4 "$tree/usr/share/doc/panewright/examples/c/$e.c" -x none $flags -o "$T/$e" || { fail "$e.c does not build as $1"; return; }
    LD_LIBRARY_PATH=$tree/usr/lib "$T/$e" >"$T/$e.out" || fail "$e ($1) ends with $?"
    cmp -s "$T/$e.out" "$T/$e.want" || { fail "$e ($1) says other figures than the command:"; diff "$T/$e.want" "$T/$e.out"; }
  done
  [ "$5" = shared ] && ! ldd "$T/rate" | grep -q libpanewright.so.0 && fail "$1 is not linked to the shared library"
  [ "$5" = static ] && ldd "$T/rate" | grep -q libpanewright && fail "$1 is linked to the shared library"
}
hosts() {
  pw=$build/panewright
  mkdir "$T/one" "$T/year"
  glass='3mm clear coat ag2@2 / 1/2in argon 90% / 3mm clear'
  printf 'package,glass,spacer,frame_line\nlow-e,%s,metal,vinyl\n' "$glass" | tee "$T/one/packages.csv" >"$T/year/packages.csv"
  printf 'item,value\njob,four walls\nclimate,Albuquerque\nstate,NM\nyear_built,1972\nfloor_area,150 m2\nceiling_height,2.44 m\nheat_set,20 C\ncool_set,25 C\nsetback,0 F\ncoverings,none\nheating_efficiency,0.8 AFUE\ncooling_efficiency,3.5 COP\n' |
    tee "$T/one/job.csv" >"$T/year/job.csv"
  printf 'tag,facing,operator,width_middle,height_middle\nA,0,slider,48,36\n' >"$T/one/openings.csv"
  printf 'tag,facing,operator,width_middle,height_middle,quantity\nN,0,slider,60,48,2\nE,90,slider,60,48,2\nS,180,slider,60,48,2\nW,270,slider,60,48,2\n' >"$T/year/openings.csv"
  "$pw" compare "$T/one" --format csv 2>/dev/null | awk -F, 'NR == 1 {for (i = 1; i <= NF; i++) at[$i] = i; next}
    {print $at["u_w_m2k"], $at["shgc"], $at["vt"]}' >"$T/rate.want"
  "$pw" compare "$T/year" --format json 2>/dev/null | jq -r '.house | (["existing", .existing], ["code minimum", .code_minimum], (.packages[] | [.package, .])) |
    [.[0], .[1].heating_kwh, .[1].cooling_kwh, .[1].cost] | @tsv' | awk -F'\t' '{printf "%s %.6g %.6g %.6g\n", $1, $2, $3, $4}' >"$T/house_year.want"
  [ "$(wc -l <"$T/rate.want")" = 2 ] && [ "$(wc -l <"$T/house_year.want")" = 3 ] || fail "the command does not say the figures"
  host "C, shared" "${CC:-cc}" c11 c shared
  host "C, static" "${CC:-cc}" c11 c static
  host "C++, shared" "${CXX:-g++}" c++17 c++ shared
  host "C++, static" "${CXX:-g++}" c++17 c++ static
  [ "$(wc -l <examples/c/rate.c)" -le 20 ] && [ "$(wc -l <examples/c/house_year.c)" -le 40 ] || fail "an example has grown"
}

manual() {
  m=$tree/usr/share/man/man1 fish=$tree/usr/share/fish/vendor_completions.d/panewright.fish zsh=$tree/usr/share/zsh/site-functions/_panewright
  for c in $(sed -n 's/^COMMAND(\(.*\))/\1/p' src/cli/commands.def); do
    [ -f "$m/panewright-$c.1" ] || { fail "no page for $c"; continue; }
    "$build/panewright" "$c" --help | sed -n 's/^  --\([a-z0-9-]*\).*/\1/p' | sort >"$T/options"
    grep -v '^help$' "$T/options" >"$T/own"
    sed -n 's/^\\fB\\-\\-\([a-z0-9\\-]*\)\\fR.*/\1/p' "$m/panewright-$c.1" | sed 's/\\-/-/g' | sort | diff "$T/options" - || fail "the page of $c has other options"
    sed -n "s/^complete.*__fish_seen_subcommand_from $c' -l \([a-z0-9-]*\) .*/\1/p" "$fish" | sort | diff "$T/own" - || fail "fish completes other options of $c"
    sed -n "/^  $c)/,/;;/s/^      '--\([a-z0-9-]*\)\[.*/\1/p" "$zsh" | sort | diff "$T/options" - || fail "zsh completes other options of $c"
    # bash is asked itself.
    got=$(bash -c '. "$1"; COMP_WORDS=(panewright "$2" --); COMP_CWORD=2; _panewright; printf "%s\n" "${COMPREPLY[@]}"' - "$tree/usr/share/bash-completion/completions/panewright" "$c" | sed 's/^--//' | sort)
    [ "$got" = "$(cat "$T/options")" ] || fail "bash completes $c with: $got"
    if command -v groff >/dev/null; then groff -man -Tutf8 -ww -z "$m/panewright-$c.1" 2>&1 | grep . && fail "groff finds fault with the page of $c"; fi
  done
  got=$(bash -c '. "$1"; COMP_WORDS=(panewright fit --format ""); COMP_CWORD=3; _panewright; echo "${COMPREPLY[@]}"' - "$tree/usr/share/bash-completion/completions/panewright")
  [ "$got" = "text csv json" ] || fail "bash completes fit --format with: $got"
  if command -v zsh >/dev/null; then zsh -n "$zsh" || fail "zsh cannot read its completion"; fi
  if command -v fish >/dev/null; then fish -n "$fish" || fail "fish cannot read its completion"; fi
  cp -a "$tree" "$T/tree" && make -s --no-print-directory uninstall BUILD="$build" DESTDIR="$T/tree" PREFIX=/usr && [ -z "$(find "$T/tree" ! -type d)" ] ||
    fail "uninstall leaves: $(find "$T/tree" ! -type d | head -3)"
}

case $part in names) names ;; hosts) hosts ;; manual) manual ;; *) exit 64 ;; esac
exit $bad
