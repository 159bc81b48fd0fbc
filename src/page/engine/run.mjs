// The page's engine as a command, on the real file system: node run.mjs compare DIR ...
import { readFileSync, writeSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { drawWith } from './draw.mjs';
import { realFiles } from './real_files.mjs';
import { runOnce } from './run_once.mjs';

const require = createRequire(import.meta.url);
const part = (name) => fileURLToPath(new URL(`engine/${name}`, import.meta.url));
const compiled = (name) => new WebAssembly.Module(readFileSync(part(name)));
const gnuplot = () => drawWith(require(part('gnuplot.js')), compiled('gnuplot.wasm'));

const write = (fd, bytes) => {
  for (let at = 0; at < bytes.length; ) at += writeSync(fd, bytes, at);
};

const made = runOnce(require(part('panewright.js')), compiled('panewright.wasm'), process.argv.slice(2), {
  ...realFiles(),
  helper: (name) => (name === 'gnuplot' ? gnuplot() : null),
});
write(1, made.out);
write(2, made.err);
process.exitCode = made.status;
