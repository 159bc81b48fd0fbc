// The engine alone in a page, for engine_browser.test.mjs.
import { fromText } from '../../src/page/engine/base85.js';
import { boot } from '../../src/page/engine/boot.js';
import { openEngine } from '../../src/page/engine/engine.js';
import { Hand } from '../../src/page/engine/hand.js';
import { part } from '../../src/page/engine/parts.js';

const files = (list) => new Map(list.map(([name, text]) => [name, new TextEncoder().encode(text)]));
const plain = (result) =>
  result && { ...result, files: [...result.files].map(([name, bytes]) => [name, new TextDecoder().decode(bytes)]) };

// Read before boot() takes it: a part can be had once.
const own = (name) => {
  const block = document.getElementById(`part ${name}`).cloneNode(true);
  const bytes = fromText(block.textContent.trim());
  const source = new ReadableStream({ start: (to) => (to.enqueue(bytes), to.close()) });
  return new Response(source.pipeThrough(new DecompressionStream('gzip')));
};
const text = own('worker.js').text();
const wasmBytes = own('panewright.wasm').arrayBuffer();

const began = performance.now();
const engine = boot();
window.again = () => Hand.again;
window.opened = engine.ready.then(() => performance.now() - began);
window.edit = async (argv, list, lane) => {
  const start = performance.now();
  const result = plain(await engine.edit(argv, files(list), lane));
  return { result, ms: performance.now() - start };
};
// Calls made at once: which of them gave an answer.
window.race = async (calls, list) =>
  (await Promise.all(calls.map(([argv, lane]) => engine.edit(argv, files(list), lane)))).map((r) => r && r.status);
window.long = async (argv, list, cancelAt) => {
  const told = [];
  const run = engine.long(argv, files(list), (progress) => {
    told.push(progress);
    if (progress.percent >= cancelAt) run.cancel();
  });
  return { result: plain(await run.promise), told };
};
// A module that is not the program: each run breaks off, the engine goes on.
window.broken = async () => {
  await engine.ready;
  const wasm = new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0]);
  const own = await openEngine({ wasm, worker: await text, gnuplot: () => part('gnuplot.wasm') });
  const runs = [];
  for (let i = 0; i < 2; i++) runs.push(plain(await own.edit(['--version'], new Map())));
  own.close();
  return runs;
};
// The program itself, made to trap in the middle when its first word is trap: the run breaks off, the next one goes on.
window.trapped = async (list) => {
  await engine.ready;
  const trap = `;{ const open = openPanewright; openPanewright = (around) => { const engine = open(around), main = engine.callMain;
    engine.callMain = (argv) => { if (argv[0] === 'trap') new WebAssembly.Instance(new WebAssembly.Module(new Uint8Array(
      [0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 8, 1, 0, 10, 5, 1, 3, 0, 0, 11]))); return main(argv); };
    return engine; }; }`;
  const own = await openEngine({ wasm: await wasmBytes, worker: (await text) + trap, gnuplot: () => part('gnuplot.wasm') });
  const runs = [];
  for (const argv of [['trap'], ['fit', '/job'], ['trap'], ['fit', '/job']]) {
    runs.push(plain(await own.edit(argv, files(list))));
    runs.push(plain(await own.long(argv, files(list)).promise));
  }
  own.close();
  return runs;
};
