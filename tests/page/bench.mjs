// The page's speed in Chromium, from its file: what issue "page" asks for beside what is measured. Figures, no test: a
// machine at work with other things gives longer times, so the processor time of the page's process stands beside.
//   node tests/page/bench.mjs [BUILD]          (on a busy machine: chrt -f 50 make bench-page)
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from './browser_page.mjs';
import { memory } from './driver.mjs';

const build = process.argv[2] ?? 'build';
const page = resolve(build, 'page');
const dir = mkdtempSync(`${tmpdir()}/page-bench-`);
const job = 'examples/harrow_bend';
const ticks = Number(execFileSync('getconf', ['CLK_TCK']));
const say = (what, measured, asked) => console.log(`${what.padEnd(46)} ${measured.padEnd(44)} ${asked ? `asked for ${asked}` : ''}`);
const middle = (list) => [...list].sort((a, b) => a - b)[list.length >> 1];
const ms = (list) => `${Math.round(Math.min(...list))} ms at best, ${Math.round(middle(list))} in the middle`;

// The processes that draw pages in the browser of a profile: their processor time, ms.
const renderers = (profile) =>
  readdirSync('/proc').filter((id) => {
    try {
      const words = String(readFileSync(`/proc/${id}/cmdline`));
      return words.includes('--type=renderer') && words.includes(profile);
    } catch {
      return false;
    }
  });
const used = (ids) =>
  ids.reduce((sum, id) => {
    const [user, system] = String(readFileSync(`/proc/${id}/stat`)).split(') ')[1].split(' ').slice(11, 13);
    return sum + ((Number(user) + Number(system)) * 1000) / ticks;
  }, 0);

/* The example's openings over and over, each with a tag of its own, until there are n, in a house that has room for them. */
const files = (n) =>
  readdirSync(job).filter((name) => name.endsWith('.csv')).map((name) => {
    const text = readFileSync(`${job}/${name}`, 'utf8');
    if (name === 'job.csv' && n > 12) return [name, text.replace(/^floor_area,.*$/m, 'floor_area,20000 ft2').replace(/^storeys,.*$/m, 'storeys,2')];
    if (name !== 'openings.csv') return [name, text];
    const lines = text.trimEnd().split('\n');
    const head = lines.findIndex((line) => line.startsWith('tag,'));
    const rows = lines.slice(head + 1);
    const many = Array.from({ length: n }, (_, i) => rows[i % rows.length].replace(/^[^,]*/, (tag) => (i < rows.length ? tag : `${tag}x${i}`)));
    return [name, [...lines.slice(0, head + 1), ...many, ''].join('\n')];
  });

const watch = `addEventListener('DOMContentLoaded', () => {
  const look = () => document.querySelector('.new button') ? requestAnimationFrame(() => { window.drawn = performance.now(); }) : setTimeout(look, 2);
  look();
});`;

const opening = async () => {
  const drawn = [];
  const cpu = [];
  for (let i = 0; i < 3; i++) {
    const profile = `${dir}/open${i}`;
    const driver = await chromium(profile);
    try {
      await driver.sendDevToolsCommand('Page.addScriptToEvaluateOnNewDocument', { source: watch });
      await driver.get(pathToFileURL(`${page}/panewright.html`).href);
      drawn.push(await driver.wait(() => driver.executeScript('return window.drawn'), 30000));
      cpu.push(used(renderers(profile)));
    } finally {
      await driver.quit();
    }
  }
  say('start view drawn, a new browser', ms(drawn), '1000 ms');
  say('  processor time of the page until then', ms(cpu));
};

const working = async () => {
  const profile = `${dir}/work`;
  writeFileSync(`${dir}/none.css`, '');
  execFileSync('node', ['src/page/tools/assemble.mjs', page, 'tests/page/engine_page.js', `${dir}/none.css`, `${dir}/page.html`]);
  const driver = await chromium(profile);
  await driver.manage().setTimeouts({ script: 300000 });
  const call = (name, ...argv) =>
    driver.executeAsyncScript('const back = arguments[arguments.length - 1]; window[arguments[0]](...[...arguments].slice(1, -1)).then(back)', name, ...argv);
  try {
    await driver.get(`file://${dir}/page.html`);
    say('engine unpacked and compiled', `${Math.round(await driver.executeAsyncScript('opened.then(arguments[0])'))} ms`);
    const own = renderers(profile);
    for (const [n, asked] of [[12, 150], [60, 600]]) {
      const list = files(n);
      const times = { fit: [], compare: [], both: [] };
      const before = used(own);
      const turns = 12;
      for (let i = 0; i < turns; i++) {
        const fit = await call('edit', ['fit', '/job', '--format', 'json'], list);
        const compare = await call('edit', ['compare', '/job', '--format', 'json'], list);
        if (fit.result.status || compare.result.status) throw new Error(fit.result.err + compare.result.err);
        times.fit.push(fit.ms);
        times.compare.push(compare.ms);
        times.both.push(fit.ms + compare.ms);
      }
      say(`${n} openings, fit after an edit`, ms(times.fit), n === 12 ? '30 ms' : '');
      say(`${n} openings, comparison`, ms(times.compare));
      say(`${n} openings, fit and comparison`, ms(times.both), `${asked} ms`);
      say('  processor time of the page for both', `${Math.round((used(own) - before) / turns)} ms on average`);
    }
    const list = files(12);
    await driver.executeScript('window.gap = 0; let last = performance.now(); setInterval(() => { const now = performance.now(); window.gap = Math.max(window.gap, now - last); last = now; }, 10);');
    const before = used(own);
    const began = Date.now();
    const range = call('long', ['sheet', '/job', '--threads', '1', '--date', '2026-11-29', '-o', '/out/sheet.html'], list, 101);
    const { result } = await range;
    if (result.status) throw new Error(result.err);
    say('12 openings, the sheet with its ranges', `${((Date.now() - began) / 1000).toFixed(1)} s, processor ${((used(own) - before) / 1000).toFixed(1)} s`, '10 s');
    say('  longest that the page did not answer meanwhile', `${Math.round(await driver.executeScript('return window.gap'))} ms`);
    say('memory of the page, its two workers within', `${Math.round(await memory(driver))} MB`, '300 MB');
    await driver.sleep(8000);
    say('  eight seconds later', `${Math.round(await memory(driver))} MB`);
  } finally {
    await driver.quit();
  }
};

try {
  await opening();
  await working();
} finally {
  rmSync(dir, { recursive: true, force: true });
}
