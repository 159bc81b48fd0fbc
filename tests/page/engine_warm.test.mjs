// An instance that is used again has the memory of a new one, and gives what a new one gives.   BUILD=build
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { resolve } from 'node:path';
import { test } from 'node:test';

const page = resolve(process.env.BUILD ?? 'build', 'page');
const { runOnce } = await import(`${page}/run_once.mjs`);
const { instanceOf } = await import(`${page}/warm.mjs`);
const { realFiles } = await import(`${page}/real_files.mjs`);
const open = createRequire(import.meta.url)(`${page}/engine/panewright.js`);
const bytes = readFileSync(`${page}/engine/panewright.wasm`);
const compiled = () => new WebAssembly.Module(bytes);
const job = 'examples/harrow_bend';
const runs = [['compare', job], ['fit', job, '--format', 'json'], ['compare', '/no/such/job'], ['year', job], ['words', '--nothing'], ['--version'], ['compare', job]];

const run = (module, argv) => {
  const made = runOnce(open, module, argv, realFiles());
  return [made.status, Buffer.from(made.out).toString(), Buffer.from(made.err).toString()];
};

const stubs = (module) => {
  const all = {};
  for (const { module: space, name, kind } of WebAssembly.Module.imports(module)) {
    assert.equal(kind, 'function');
    (all[space] ??= {})[name] = () => 0;
  }
  return all;
};
const memory = (module) => new Uint8Array(Object.values(instanceOf(module, stubs(module)).exports).find((one) => one instanceof WebAssembly.Memory).buffer);

test('any run after any other gives what it gives alone', () => {
  const module = compiled();
  for (const argv of runs) assert.deepEqual(run(module, argv), run(compiled(), argv), argv.join(' '));
});

test('nothing of a run stays in the memory', () => {
  const fresh = memory(compiled());
  const module = compiled();
  for (const argv of runs) run(module, argv);
  const again = memory(module);
  assert.ok(again.length >= fresh.length);
  assert.ok(Buffer.compare(again.subarray(0, fresh.length), fresh) === 0);
  assert.equal(again.subarray(fresh.length).findIndex((byte) => byte !== 0), -1);
});

test('a run that is thrown out of leaves nothing either', () => {
  const module = compiled();
  const argv = ['compare', job];
  const want = run(module, argv);
  const around = { ...realFiles(), after() { throw new Error('thrown'); } };
  assert.throws(() => runOnce(open, module, argv, around), /thrown/);
  assert.deepEqual(run(module, argv), want);
});
