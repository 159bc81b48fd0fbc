// The page's engine held against the command: the examples and N jobs of chance, text byte for byte, every number of JSON
// the same (12 places are printed; sound, which asks the C library for its logarithms, to 1e-10).
//   node tests/page/engine.mjs N [BUILD [K/M]]     K/M: of the jobs every M-th from the K-th, so that M may run at once
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { resolve } from 'node:path';

const n = Number(process.argv[2] ?? 20);
const build = process.argv[3] ?? 'build';
const [kth, of] = (process.argv[4] ?? '0/1').split('/').map(Number);
const work = mkdtempSync(`${tmpdir()}/page-engine-`);
const bound = (path) => (/(^|\/)sound\//.test(path) ? 1e-10 : 0); // of the larger number, or of 1
const require = createRequire(import.meta.url);
const { runOnce } = await import(resolve(build, 'page/run_once.mjs'));
const { realFiles } = await import(resolve(build, 'page/real_files.mjs'));
const { drawWith } = await import(resolve(build, 'page/draw.mjs'));
const part = (name) => resolve(build, 'page/engine', name);
const compiled = (name) => new WebAssembly.Module(readFileSync(part(name)));
const open = require(part('panewright.js'));
const module = compiled('panewright.wasm');
const draw = drawWith(require(part('gnuplot.js')), compiled('gnuplot.wasm'));

const page = (argv) => {
  const made = runOnce(open, module, argv, { ...realFiles(), helper: (name) => (name === 'gnuplot' ? draw : null) });
  return { status: made.status, out: Buffer.from(made.out).toString(), err: Buffer.from(made.err).toString() };
};
const command = (argv) => {
  const made = spawnSync(`${build}/panewright`, argv, { encoding: 'utf8', maxBuffer: 1 << 28 });
  return { status: made.status, out: made.stdout, err: made.stderr };
};

let failed = 0;
let texts = 0;
let numbers = 0;
let unequal = 0;
let worst = 0;
const fail = (argv, what) => {
  failed += 1;
  console.log(`FAIL ${argv.join(' ')}: ${what}`);
};

const firstLine = (a, b) => {
  const [x, y] = [a.split('\n'), b.split('\n')];
  const at = x.findIndex((line, i) => line !== y[i]);
  return `line ${at + 1}\n  command: ${x[at]}\n  page:    ${y[at]}`;
};

const sameText = (argv) => {
  texts += 1;
  const [want, got] = [command(argv), page(argv)];
  if (want.status !== got.status) fail(argv, `exit ${want.status}, the page ${got.status}: ${got.err}`);
  else if (want.out !== got.out) fail(argv, firstLine(want.out, got.out));
  else if (want.err !== got.err) fail(argv, firstLine(want.err, got.err));
};

const sameValue = (want, got, path, wrong) => {
  if (typeof want === 'number' && typeof got === 'number') {
    numbers += 1;
    const apart = Math.abs(want - got) / Math.max(1, Math.abs(want));
    if (apart > 0) unequal += 1;
    worst = Math.max(worst, apart);
    if (!(apart <= bound(path))) wrong.push(`${path}: ${want} and ${got}`);
  } else if (want && got && typeof want === 'object' && typeof got === 'object') {
    const keys = Object.keys(want);
    if (keys.join() !== Object.keys(got).join()) wrong.push(`${path}: keys`);
    else keys.forEach((key) => sameValue(want[key], got[key], `${path}/${key}`, wrong));
  } else if (want !== got) wrong.push(`${path}: ${want} and ${got}`);
};

const sameJson = (argv) => {
  const [want, got] = [command(argv), page(argv)];
  if (want.status !== got.status) return fail(argv, `exit ${want.status}, the page ${got.status}: ${got.err}`);
  if (want.status !== 0) return want.err === got.err || fail(argv, firstLine(want.err, got.err));
  const wrong = [];
  sameValue(JSON.parse(want.out), JSON.parse(got.out), '', wrong);
  return wrong.length && fail(argv, wrong.slice(0, 5).join('; '));
};

// A document that is written: argv, the file's name at its end left out.
const sameFile = (words, ending) => {
  texts += 1;
  const made = ['a', 'b'].map((name) => `${work}/${name}.${ending}`);
  const argv = (to) => [...words, '-o', to];
  const [want, got] = [command(argv(made[0])), page(argv(made[1]))];
  const line = (told) => told.err.replaceAll(made[0], 'F').replaceAll(made[1], 'F');
  if (want.status !== got.status || line(want) !== line(got)) return fail(argv('F'), `${line(want)} and ${line(got)}`);
  if (want.status !== 0) return undefined;
  const [a, b] = made.map((path) => readFileSync(path, 'utf8'));
  return a === b || fail(argv('F'), firstLine(a, b));
};

const program = 'examples/programs/juniper_flat_power_2026.csv';
const examples = ['harrow_bend', 'cinder_lane', 'starter'].map((name) => `examples/${name}`);
const chance = [...Array(n).keys()].map((i) => `${work}/jobs/${i}`);
chance.forEach((dir) => mkdirSync(dir, { recursive: true }));
execFileSync(`${build}/tests/page/write_jobs`, [String(n), `${work}/jobs`]);
try {
  for (const job of [...examples, ...chance].filter((_, i) => i % of === kth)) {
    for (const words of ['fit', 'compare', 'year']) sameText([words, job]);
    sameFile(['sheet', job, '--no-range', '--date', '2026-11-29'], 'html');
    for (const ending of ['html', 'csv']) sameFile(['rebate', job, '--program', program], ending);
    for (const words of ['fit', 'compare']) sameJson([words, job, '--format', 'json']);
  }
  const alone = [...['old_jamb', 'insert_meeting'].map((name) => ['section', `examples/sections/${name}.csv`]), ['sound', examples[0]],
    ['compare', examples[0], '--range', '--draws', '64', '--seed', '3']];
  alone.forEach((argv, i) => i % of === kth && sameText(argv));
} finally {
  rmSync(work, { recursive: true, force: true });
}
console.log(
  `${texts} texts byte for byte, ${numbers} numbers of JSON, ${unequal} of them not the same, ` +
    `at most ${worst.toExponential(1)} apart; ${failed} failed`,
);
process.exitCode = failed ? 1 : 0;
