#!/bin/sh
# gnuplot, unchanged, with its svg terminal alone, as a module of its own.
#   sh src/page/tools/gnuplot.sh PAGE   ->  PAGE/engine/gnuplot.js, gnuplot.wasm
set -eu
page=$(cd "$1" && pwd)
src=$page/src/gnuplot
work=$page/deps/work/gnuplot
to=$page/engine
[ -f "$to/gnuplot.wasm" ] && [ ! "$0" -nt "$to/gnuplot.wasm" ] && exit 0
mkdir -p "$work" "$to"
echo "  gnuplot"
cd "$work"
# Asked of the machine itself, whose library has what emscripten's has; that takes a tenth of the time.
# Debian's source lacks a folder that the last step wants.
if [ ! -f config.h ]; then
  "$src/configure" --disable-dependency-tracking --without-x --without-qt --disable-wxwidgets --without-cairo \
    --without-gd --without-lua --without-latex --without-libcerf --without-readline --without-bitmap-terminals \
    --without-tektronix --without-gpic --without-mif --without-regis --without-tgif --without-aquaterm \
    --disable-history-file --without-row-help --disable-plugins --disable-stats >said 2>&1 || :
  [ -f config.status ] || { tail -20 said >&2; exit 1; }
  ./config.status config.h >>said 2>&1
fi
# SHORT_TERMLIST is gnuplot's own way to choose terminals; of the names in it, the post.trm is this one.
mkdir -p term
echo '#include "svg.trm"' >term/post.trm
flags="$(emcc --cflags) -Oz -w -DHAVE_CONFIG_H -DSHORT_TERMLIST -I. -I$work/term -I$src/src -I$src/term"
export flags src
sed -n '/^gnuplot_SOURCES = /,/[^\\]$/p' "$src/src/Makefile.am" | grep -o '[a-z0-9_]*\.c\b' | sort -u |
  xargs -P 2 -I FILE sh -c 'clang $flags -c -o FILE.o "$src/src/FILE"'
emcc -Oz -o "$to/gnuplot.js" ./*.c.o -sMODULARIZE=1 -sEXPORT_NAME=openGnuplot -sENVIRONMENT=node,worker \
  -sWASM_ASYNC_COMPILATION=0 -sINVOKE_RUN=0 -sEXIT_RUNTIME=1 -sFORCE_FILESYSTEM=1 -sALLOW_MEMORY_GROWTH=1 \
  -sNODEJS_CATCH_EXIT=0 -sNODEJS_CATCH_REJECTION=0 -sEXPORTED_RUNTIME_METHODS=FS,callMain
