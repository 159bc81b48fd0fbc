#!/bin/sh
# The main job on the example house. Usage: examples/demo.sh PROGRAM FOLDER
set -eu
program=$1 out=$2
job=examples/harrow_bend
mkdir -p "$out"
"$program" compare "$job" --plots "$out" | tee "$out/compare.txt"
echo
echo "Written: $out/compare.txt and the pictures"
ls "$out" | sed 's/^/  /'
