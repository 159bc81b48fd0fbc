// What the page is built of besides the program itself, and on which terms.
export const BUILT_IN = [
  ['GSL', 'GPL 3 or later'], ['gnuplot (a module of its own, unchanged)', 'gnuplot licence'], ['CHOLMOD, AMD, COLAMD of SuiteSparse', 'LGPL 2.1 or later, BSD'], ['jansson', 'MIT'], ['libcsv', 'LGPL 2.1 or later'],
  ['expat', 'MIT'], ['libunistring', 'LGPL 3 or later, or GPL 2 or later'], ['zlib', 'zlib licence'], ['musl and the runtime of emscripten', 'MIT'], ['preact', 'MIT'], ['fflate', 'MIT'], ['idb', 'ISC'],
];
