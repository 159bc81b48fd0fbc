#!/bin/sh
# What a target begins with, into a folder. Usage: tests/fuzz/seeds.sh TARGET FOLDER
# Files of the examples, the street and the checks where there are such; tests/fuzz/seeds/TARGET/ holds the others.
# FOLDER/words.dict is made of the words of the sources that read.
set -eu
target=$1 to=$2
mkdir -p "$to/seeds"
[ ! -d "tests/fuzz/seeds/$target" ] || cp tests/fuzz/seeds/"$target"/* "$to/seeds/"
jobs="examples/harrow_bend examples/cinder_lane examples/starter $(echo tests/street/*)"

each() { # NAME: that file of every job
  for j in $jobs; do
    [ ! -e "$j/$1" ] || cp "$j/$1" "$to/seeds/$(basename "$j").$1"
  done
}

# A job in one file: which command, then its files.
whole() {
  k=0
  for j in $jobs; do
    for more in "" tests/fuzz/seeds; do
      k=$((k + 1))
      {
        printf "\\$(printf %03o $((64 + k)))\n"
        for f in "$j"/*.csv; do
          printf '== %s\n' "${f##*/}"
          cat "$f"
        done
        [ -n "$more" ] || continue
        for f in bills firm labels prices tariff promise; do
          [ ! -e "$more/$f/job.csv" ] || { printf '== %s.csv\n' "$f" && cat "$more/$f/job.csv"; }
        done
      } >"$to/seeds/$(basename "$j").$k"
    done
  done
}

case $target in
  house_facts) each job.csv ;;
  openings | packages | frame_lines | labels | prices | order | promise) each $target.csv ;;
  csv) each openings.csv ;;
  program) cp examples/programs/*.csv "$to/seeds/" ;;
  catalogue) cp examples/catalogue.csv "$to/seeds/" ;;
  section) cp examples/sections/*.csv "$to/seeds/" ;;
  house) cp examples/std140/*.csv "$to/seeds/" ;;
  bills) head -40 reference/checks/bills/bills_visible.csv >"$to/seeds/visible" ;;
  feed)
    cp reference/checks/bills/espi_electric_daily.xml "$to/seeds/"
    { head -50 reference/checks/bills/espi_gas_monthly.xml && echo '</feed>'; } >"$to/seeds/gas" ;;
  climate | daily)
    for f in reference/checks/hourly/*.gz; do
      zcat "$f" | head -30 >"$to/seeds/$(basename "$f" .gz)"
    done ;;
  packed) for j in $jobs; do gzip -nc "$j/job.csv" >"$to/seeds/$(basename "$j").gz"; done ;;
  job) whole ;;
esac

case $target in
  feed) from=src/job/usage_feed*.c ;;
  climate | year | daily) from="src/job/climate_*.c src/job/daily_*.c" ;;
  section) from="src/job/section_file.c" ;;
  house) from="src/job/house_*.c" ;;
  program | tariff | catalogue | bills | labels | prices | firm | order | promise)
    from="src/job/${target}*.c src/window/options.c" ;;
  spectrum | curve) from="src/job/${target}_file.c" ;;
  street) from="src/out/street_*.c" ;;
  buildup) from="src/glass/buildup.c src/glass/gas.c" ;;
  measure | spelling | place) from="src/job/measure.c src/job/number.c src/job/date_text.c src/job/unit*.c src/job/room_name.c" ;;
  *) from=$(echo src/job/*.c) ;;
esac
# shellcheck disable=SC2086
grep -oh '"[A-Za-z0-9_ ./$%(){}:<-]\{1,40\}"' $from | grep -v '%[a-z0-9.]\|\.h"' | sort -u >"$to/words.dict"
