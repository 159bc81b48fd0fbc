// What the page is built of and on which terms, out of the packages' own files (Debian's debian/copyright in the form
// DEP-5, or whole where it is in another form; npm's LICENSE): nothing is typed from memory.
//   licencesOf(PAGE) -> {list: [[name, licence]], text}
import { readFileSync } from 'node:fs';

const EMSCRIPTEN = '/usr/share/doc/emscripten/copyright';
const MUSL = '/usr/share/emscripten/system/lib/libc/musl/COPYRIGHT';

// of: files of which the page has something, as debian/copyright groups them; terms: where a licence stands whole.
const LIBRARIES = [
  { name: 'GSL', source: 'gsl', terms: ['COPYING'] },
  { name: 'CHOLMOD, AMD, COLAMD of SuiteSparse', source: 'suitesparse', of: ['CHOLMOD/Core/cholmod_dense.c', 'CHOLMOD/Cholesky/cholmod_factorize.c', 'CHOLMOD/Check/cholmod_check.c',
    'AMD/Source/amd_1.c', 'COLAMD/Source/colamd.c', 'SuiteSparse_config/SuiteSparse_config.c'] },
  { name: 'libcsv', source: 'libcsv', of: ['libcsv.c'], terms: ['COPYING.LESSER'] },
  { name: 'libunistring', source: 'libunistring', of: ['lib/uniwidth/width.c'], terms: ['COPYING.LIB'] },
  { name: 'jansson', source: 'jansson', of: ['src/load.c', 'src/memory.c'] },
  { name: 'expat', source: 'expat', of: ['expat/lib/xmlparse.c'] },
  { name: 'zlib', source: 'zlib', of: ['inflate.c'] },
  { name: 'gnuplot (a module of its own, unchanged)', source: 'gnuplot', of: ['src/plot.c', 'term/svg.trm'], terms: ['Copyright'] },
];
const RUNTIME = ['src/library.js', 'system/lib/libc/musl/src/stdio/printf.c', 'system/lib/dlmalloc.c', 'system/lib/compiler-rt/lib/builtins/multi3.c'];
const MODULES = ['preact', 'fflate', 'idb'];

// The patterns of DEP-5: * and ? stand for any signs, / too.
const matchesGlob = (pattern, file) =>
  new RegExp(`^${pattern.replace(/[.+^${}()|[\]\\]/g, '\\$&').replaceAll('*', '.*').replaceAll('?', '.')}$`).test(file);
const paragraphs = (text) => text.split(/\n[ \t]*\n/).filter((p) => p.trim());
const field = (paragraph, name) => paragraph.match(new RegExp(`^${name}:((?:.*)(?:\\n[ \\t].*)*)`, 'm'))?.[1];
const words = (text) => text.trim().split(/\s+/);
const firstLine = (text) => text.trim().split('\n')[0].trim();
const matches = (paragraph, file) => words(field(paragraph, 'Files') ?? '').some((pattern) => matchesGlob(pattern, file));

// The paragraphs of DEP-5 that are about these files (the last that fits a file is the one), and the licences named.
const partOf = (text, files, what) => {
  const all = paragraphs(text);
  const about = new Set(files.map((file) => {
    const last = all.filter((p) => matches(p, file)).at(-1);
    if (!last) throw new Error(`licences: ${what} says nothing of ${file}`);
    return last;
  }));
  const named = [...new Set([...about].map((p) => firstLine(field(p, 'License'))))];
  const single = named.flatMap((n) => n.split(/ (?:and|or) |, /).map((one) => one.trim()));
  const terms = all.filter((p) => !field(p, 'Files') && single.includes(firstLine(field(p, 'License') ?? '')));
  return { licence: named.join('; '), text: [...about, ...terms].join('\n\n') };
};

const read = (path) => readFileSync(path, 'utf8');
const rule = '='.repeat(78);
const chapter = (name, licence, ...texts) => `${rule}\n${name}: ${licence}\n${rule}\n\n${texts.join('\n\n')}\n`;

export const licencesOf = (page) => {
  const list = [];
  const texts = [];
  const add = (name, licence, ...parts) => {
    const called = licence === 'other' ? 'terms of its own' : licence;
    list.push([name, called]);
    texts.push(chapter(name, called, ...parts));
  };
  const own = read('LICENSE');
  add('panewright', own.trim().split('\n').slice(0, 2).map((line) => line.trim()).join(', '), own);
  for (const { name, source, of, terms = [] } of LIBRARIES) {
    const folder = `${page}/src/${source}`;
    const said = read(`${folder}/debian/copyright`);
    const whole = terms.map((file) => read(`${folder}/${file}`)).filter((text) => text.trim() !== own.trim());
    if (of) {
      const part = partOf(said, of, source);
      add(name, part.licence, part.text, ...whole);
    } else {
      add(name, said.match(/^License: *(.*)$/m)[1], said, ...whole);
    }
  }
  const runtime = partOf(read(EMSCRIPTEN), RUNTIME, 'emscripten');
  add('musl and the runtime of emscripten', runtime.licence, runtime.text, read(MUSL));
  for (const name of MODULES) {
    const folder = `${page}/node/node_modules/${name}`;
    add(name, JSON.parse(read(`${folder}/package.json`)).license, read(`${folder}/LICENSE`));
  }
  return { list, text: texts.join('\n') };
};
