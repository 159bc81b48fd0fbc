// Processor time of the page's engine beside the command's, each the least of some runs, as in the page.
// Figures and what is asked for, no test.   node tests/page/engine_bench.mjs [BUILD]
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { resolve } from 'node:path';

const build = process.argv[2] ?? 'build';
const require = createRequire(import.meta.url);
const { runOnce } = await import(resolve(build, 'page/run_once.mjs'));
const { realFiles } = await import(resolve(build, 'page/real_files.mjs'));
const open = require(resolve(build, 'page/engine/panewright.js'));
const module = new WebAssembly.Module(readFileSync(resolve(build, 'page/engine/panewright.wasm')));
const job = 'examples/harrow_bend';

const ms = (used) => (used.user + used.system) / 1000;
const least = (n, run) => Math.min(...Array.from({ length: n }, run));
const inPage = (argv) => () => {
  const before = process.cpuUsage();
  const { status } = runOnce(open, module, argv, realFiles());
  if (status) throw new Error(`${argv.join(' ')}: exit ${status}`);
  return ms(process.cpuUsage(before));
};
// The shell's own clock of its children: it takes what it starts into account.
const inCommand = (argv) => () => {
  const told = spawnSync('bash', ['-c', 'TIMEFORMAT="%U %S"; time "$@" >/dev/null 2>&1', 'bash', `${build}/panewright`, ...argv], { encoding: 'utf8' });
  const [user, system] = told.stderr.trim().split(/\s+/).map(Number);
  return 1000 * (user + system);
};

const rows = [
  ['comparison', ['compare', job, '--format', 'json'], 3],
  ['fit', ['fit', job], 0],
  ['year', ['year', job], 2],
  ['range, 64 draws', ['compare', job, '--range', '--draws', '64', '--threads', '1'], 3],
];
for (const [name, argv, bound] of rows) {
  const page = inPage(argv);
  const first = page();
  const [warm, native] = [least(argv.includes('--range') ? 2 : 8, page), least(argv.includes('--range') ? 2 : 8, inCommand(argv))];
  const times = warm / native;
  console.log(
    `${name.padEnd(18)} command ${native.toFixed(0)} ms, page ${warm.toFixed(0)} ms (first ${first.toFixed(0)}), ` +
      `${times.toFixed(1)} times${bound ? `, asked for ${bound}${times > bound ? ' MISSED' : ''}` : ''}`,
  );
}
