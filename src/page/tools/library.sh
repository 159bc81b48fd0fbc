#!/bin/sh
# Builds one library for the page from Debian's source, with emscripten.
#   sh src/page/tools/library.sh NAME SOURCES DEPS   ->  DEPS/lib/libNAME.a, DEPS/include/
# Nothing is contracted, so that sums keep the digits of the native build.
set -eu
name=$1
src=$(cd "$2/$1" && pwd)
mkdir -p "$3/lib" "$3/include" "$3/work/$1"
deps=$(cd "$3" && pwd)
work=$deps/work/$name
flags="-O2 -ffp-contract=off -w"
cd "$work"

# objects FLAGS... FILE...: each compiled here, all packed.
pack() {
  # shellcheck disable=SC2086
  emcc $flags -c "$@"
  rm -f "$deps/lib/lib$name.a"
  emar rcs "$deps/lib/lib$name.a" ./*.o
}

case $name in
zlib)
  cp "$src/zlib.h" "$src/zconf.h" "$deps/include"
  pack -DHAVE_UNISTD_H -D_LARGEFILE64_SOURCE=1 "$src/adler32.c" "$src/crc32.c" "$src/deflate.c" \
    "$src/inflate.c" "$src/inftrees.c" "$src/inffast.c" "$src/trees.c" "$src/zutil.c" \
    "$src/compress.c" "$src/uncompr.c" "$src/gzlib.c" "$src/gzread.c" "$src/gzwrite.c" "$src/gzclose.c"
  ;;
libcsv)
  cp "$src/csv.h" "$deps/include"
  pack "$src/libcsv.c"
  ;;
jansson)
  sed 's/@json_inline@/inline/; s/@json_have_[a-z_]*@/1/' "$src/src/jansson_config.h.in" \
    >"$deps/include/jansson_config.h"
  cp "$src/src/jansson.h" "$deps/include"
  : >jansson_private_config.h
  pack -I. -I"$deps/include" -DHAVE_STDINT_H -DHAVE_STRTOLL -DHAVE_LOCALE_H -DHAVE_UNISTD_H -DHAVE_FCNTL_H \
    -DHAVE_GETTIMEOFDAY -DHAVE_SYS_TIME_H -DHAVE_GETPID -DHAVE_OPEN -DHAVE_READ -DHAVE_CLOSE \
    -DUSE_URANDOM=1 -DINITIAL_HASHTABLE_ORDER=3 "$src"/src/*.c
  ;;
expat)
  cp "$src/expat/lib/expat.h" "$src/expat/lib/expat_external.h" "$deps/include"
  : >expat_config.h
  pack -I. -DXML_NS -DXML_DTD -DXML_GE=1 -DXML_CONTEXT_BYTES=1024 -DBYTEORDER=1234 -DXML_DEV_URANDOM \
    "$src/expat/lib/xmlparse.c" "$src/expat/lib/xmlrole.c" "$src/expat/lib/xmltok.c"
  ;;
libunistring) # only the width of letters
  mkdir -p unistring
  for h in unitypes uniwidth unistr; do cp "$src/lib/$h.in.h" "$h.h"; done
  for h in cdefs inline localcharset stdint stdbool woe32dll; do
    [ -f "$src/lib/unistring/$h.in.h" ] && cp "$src/lib/unistring/$h.in.h" "unistring/$h.h"
    [ -f "$src/lib/unistring/$h.h" ] && cp "$src/lib/unistring/$h.h" "unistring/$h.h"
    [ -f "unistring/$h.h" ] || printf '#include <%s.h>\n' "$h" >"unistring/$h.h"
  done
  printf 'extern const char *locale_charset(void);\n' >unistring/localcharset.h
  : >config.h
  cp unitypes.h uniwidth.h unistr.h "$deps/include"
  cp -r unistring "$deps/include"
  pack -DIN_LIBUNISTRING -I. -I"$src/lib" "$src/lib/uniwidth/width.c" "$src/lib/uniwidth/u8-width.c" \
    "$src/lib/unistr/u8-mbtouc-unsafe.c" "$src/lib/unistr/u8-mbtouc-unsafe-aux.c"
  ;;
suitesparse) # CHOLMOD without supernodes, orderings of others, changes of a factor
  cp "$src"/CHOLMOD/Include/*.h "$src/SuiteSparse_config/SuiteSparse_config.h" "$deps/include"
  pack -DNSUPERNODAL -DNPARTITION -DNCAMD -DNMODIFY -DNMATRIXOPS -DNTIMER -I"$src/CHOLMOD/Include" \
    -I"$src/CHOLMOD/Core" -I"$src/CHOLMOD/Cholesky" -I"$src/SuiteSparse_config" -I"$src/AMD/Include" \
    -I"$src/COLAMD/Include" "$src"/CHOLMOD/Core/cholmod_*.c "$src"/CHOLMOD/Cholesky/cholmod_*.c \
    "$src/CHOLMOD/Check/cholmod_check.c" "$src"/AMD/Source/amd_*.c "$src/COLAMD/Source/colamd.c" \
    "$src/SuiteSparse_config/SuiteSparse_config.c"
  ;;
gsl)
  # Asked of the machine itself, as gnuplot is; make and libtool are not needed for so plain a library.
  # The files that the program's functions lead to: the link tells of one that lacks.
  files="block/init complex/math err/error err/stream err/strerror integration/glfixed matrix/copy matrix/getset
    matrix/init matrix/matrix matrix/oper matrix/rowcol matrix/submatrix matrix/swap matrix/view multifit/multilinear
    multifit/multireg multifit/multiwlinear multifit/work multimin/convergence multimin/fminimizer multimin/simplex2
    permutation/init permutation/inline permutation/permutation permutation/permute qrng/inline qrng/qrng qrng/sobol
    roots/brent roots/convergence roots/fsolver sort/sortvec sys/coerce sys/fcmp sys/fdiv sys/infnan vector/copy vector/init vector/minmax vector/oper
    vector/subvector vector/swap vector/vector vector/view specfunc/beta specfunc/elementary specfunc/erfc specfunc/exp
    specfunc/expint specfunc/gamma specfunc/gamma_inc specfunc/log specfunc/psi specfunc/trig specfunc/zeta
    linalg/balance linalg/bidiag linalg/cholesky linalg/condest linalg/householder linalg/invtri linalg/lu linalg/qr
    linalg/qrpt linalg/svd linalg/symmtd linalg/trimult eigen/sort eigen/symmv randist/chisq randist/exponential
    randist/gamma randist/gauss randist/gausszig randist/tdist cdf/chisqinv cdf/gamma cdf/gammainv cdf/gauss cdf/gaussinv cdf/tdist
    cdf/tdistinv blas/blas cblas-all"
  rm -rf objects && mkdir objects
  unset MAKEFLAGS MAKEOVERRIDES MFLAGS # for its own make
  [ -f config.status ] ||
    "$src/configure" --disable-shared --disable-dependency-tracking >said 2>&1 || { tail -20 said >&2; exit 1; }
  make -s -C gsl >>said 2>&1
  mkdir -p "$deps/include/gsl"
  cp -L gsl/gsl_*.h "$deps/include/gsl"
  flags="$(emcc --cflags) $flags -DHAVE_CONFIG_H -I. -I$src"
  clang="$(command -v ccache) clang"
  export src flags clang
  # All of CBLAS, which blas/blas leads to, in one: a hundred small files, one function in two of them by the same name.
  sed -e :a -e '/\\$/N; s/\\\n//; ta' "$src/cblas/Makefile.am" | sed -n 's/^lib.*_la_SOURCES *=//p' |
    grep -o '[a-z0-9_]*\.c\b' | sed 's,\(.*\)\.c,#define xhypot xhypot_\1\n#include "cblas/\1.c"\n#undef xhypot,' >cblas-all.c
  for f in $files; do echo "$f"; done | xargs -P "$(nproc)" -I FILE sh -c \
    'f=$src/FILE.c; [ -f "$f" ] || f=FILE.c; $clang $flags -I"${f%/*}" -I"$src/cblas" -c -o "objects/$(echo FILE | tr / -).o" "$f"'
  rm -f "$deps/lib/libgsl.a"
  find objects -name '*.o' | sort | xargs emar rcs "$deps/lib/libgsl.a"
  ;;
*)
  echo "library.sh: no recipe for $name" >&2
  exit 1
  ;;
esac
