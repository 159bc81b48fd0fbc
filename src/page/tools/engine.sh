#!/bin/sh
# Links the page's engine and puts its worker together.
#   sh src/page/tools/engine.sh PAGE   ->  PAGE/engine/panewright.js, panewright.wasm, worker.js; PAGE/run.mjs
# panewright.js is emscripten's factory, for Node and a worker alike.
set -eu
page=$1
made=$page/wasm
to=$page/engine
mkdir -p "$to"
cp src/page/engine/*.mjs "$page"

link() {
  echo "  link panewright.wasm"
  cli=$(find "$made/src/cli" -name '*.o' ! -name progress.o ! -name cholmod_later.o ! -name check.o | sort)
  rm -rf "$to/new" && mkdir "$to/new"
  # -O3 takes twice the time of -O2 here and gives nothing for it: the objects were compiled with it.
  # shellcheck disable=SC2086
  emcc -O2 -msimd128 -o "$to/new/panewright.js" "$made/src/page/engine/seam.o" $cli \
    "$made/libpanewright_top.a" "$made/libpanewright.a" "$page"/deps/lib/*.a -lnodefs.js \
    -sMODULARIZE=1 -sEXPORT_NAME=openPanewright -sENVIRONMENT=node,worker -sWASM_ASYNC_COMPILATION=0 \
    -sINVOKE_RUN=0 -sEXIT_RUNTIME=1 -sFORCE_FILESYSTEM=1 -sALLOW_MEMORY_GROWTH=1 -sINITIAL_MEMORY=32MB \
    -sMAXIMUM_MEMORY=1GB -sTOTAL_STACK=8MB -sSUPPORT_LONGJMP=0 -sNODEJS_CATCH_EXIT=0 -sNODEJS_CATCH_REJECTION=0 \
    -sEXPORTED_RUNTIME_METHODS=FS,NODEFS,callMain,stackSave,stackRestore -sEXPORTED_FUNCTIONS=_main,_malloc,_free,_sbrk
  # A link that was broken off leaves the old pair: the wasm, which tells the age, comes last.
  mv "$to/new/panewright.js" "$to/panewright.js"
  mv "$to/new/panewright.wasm" "$to/panewright.wasm"
  rmdir "$to/new"
}
newer=$(find "$made" "$page/deps/lib" "$0" -newer "$to/panewright.wasm" \
  \( -name '*.o' -o -name '*.a' -o -name '*.sh' \) 2>/dev/null | head -1)
if [ ! -f "$to/panewright.wasm" ] || [ -n "$newer" ]; then link; fi

"$page/node/node_modules/.bin/esbuild" src/page/engine/worker.js --bundle --minify --format=iife --charset=utf8 \
  --log-level=warning --outfile="$to/own.js"
cat "$to/panewright.js" "$to/gnuplot.js" "$to/own.js" >"$to/worker.js"
rm "$to/own.js"
