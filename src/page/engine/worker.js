// Runs the program, one command after the other. Its script begins with the two factories that emscripten
// made, openPanewright and openGnuplot, so that nothing has to be fetched.
//   in   {start: {engine: WebAssembly.Module, helpers: {gnuplot?: WebAssembly.Module}}}
//        {run: {id, argv, files: Map name -> Uint8Array}}
//   out  {ready}  {id, progress: {what, percent}}  {id, done: {status, out, err, files}}
//        {id, need: NAME}  a helper that has to be sent by a new start before the run can be made
//        {id, crash: LINE}
/* global openPanewright, openGnuplot */
import { drawWith } from './draw.mjs';
import { lay, Refused } from './lay.js';
import { runOnce } from './run_once.mjs';

const folders = { job: '/job', out: '/out' };
const DATA = 65; // exit status of bad data
const text = new TextDecoder();
let engine;
let helpers = {};

class Need extends Error {
  constructor(name) {
    super(name);
    this.helper = name;
  }
}

const helper = (name) => {
  if (name !== 'gnuplot') return null;
  if (!helpers.gnuplot) throw new Need(name);
  return drawWith(openGnuplot, helpers.gnuplot);
};

const put = (FS, files) => {
  FS.mkdir(folders.job);
  FS.mkdir(folders.out);
  lay(FS, files);
  FS.chdir('/');
};

/* Each file under the folder, by its path and what the file system knows it by. */
const walk = (FS, folder, each) => {
  for (const name of FS.readdir(folder)) {
    if (name === '.' || name === '..') continue;
    const path = `${folder}/${name}`;
    if (FS.isDir(FS.stat(path).mode)) walk(FS, path, each);
    else each(path, FS.lookupPath(path).node);
  }
};

/* What the run wrote: all under /out, and what stands anew in the job itself (the program puts a file whole in the place of another). */
const take = (FS, laid, made) => {
  const keep = (path) => made.set(path, FS.readFile(path).slice());
  walk(FS, folders.out, keep);
  walk(FS, folders.job, (path, node) => laid.get(path) !== node && keep(path));
};

const run = ({ id, argv, files }) => {
  const made = new Map();
  const laid = new Map();
  const ended = runOnce(openPanewright, engine, argv, {
    before: (FS) => {
      put(FS, files);
      walk(FS, folders.job, (path, node) => laid.set(path, node));
    },
    after: (FS) => take(FS, laid, made),
    helper,
    progress: (what, percent) => postMessage({ id, progress: { what, percent } }),
  });
  return { status: ended.status, out: text.decode(ended.out), err: text.decode(ended.err), files: made };
};

onmessage = ({ data }) => {
  if (data.start) {
    ({ engine, helpers } = data.start);
    postMessage({ ready: true });
    return;
  }
  const { id } = data.run;
  try {
    const done = run(data.run);
    postMessage({ id, done }, [...done.files.values()].map((bytes) => bytes.buffer));
  } catch (fault) {
    if (fault instanceof Need) postMessage({ id, need: fault.helper });
    else if (fault instanceof Refused)
      postMessage({ id, done: { status: DATA, out: '', err: `${fault.message}\n`, files: new Map() } });
    else postMessage({ id, crash: `panewright: the run broke off: ${fault?.message ?? fault}` });
  }
};
