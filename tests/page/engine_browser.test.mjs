// The engine in real browsers, from a file: what the command prints is what the page's worker gives.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { after, before, test } from 'node:test';
import { chromium, hasWebKit, webkit } from './browser_page.mjs';

const job = 'examples/harrow_bend';
const listOf = (folder) => readdirSync(folder).filter((n) => n.endsWith('.csv')).map((n) => [n, readFileSync(`${folder}/${n}`, 'utf8')]);
const list = listOf(job);
const dir = mkdtempSync(`${tmpdir()}/page-engine-`);
const command = (argv) => execFileSync('build/panewright', argv, { encoding: 'utf8' });
const sheet = ['--no-range', '--date', '2026-11-29', '-o'];

/* The starter with one package: its range takes least. */
const little = `${dir}/little`;
before(() => {
  cpSync('examples/starter', little, { recursive: true });
  const lines = readFileSync(`${little}/packages.csv`, 'utf8').split('\n');
  const head = lines.findIndex((line) => line.startsWith('package,'));
  writeFileSync(`${little}/packages.csv`, `${lines.slice(0, head + 2).join('\n')}\n`);
  writeFileSync(`${dir}/none.css`, '');
  execFileSync('node', ['src/page/tools/assemble.mjs', 'build/page', 'tests/page/engine_page.js', `${dir}/none.css`, `${dir}/page.html`]);
});
after(() => rmSync(dir, { recursive: true, force: true }));

// The names of what stands in the job are the job's own, whatever the folder.
const same = (got, want, of = job) => assert.equal(got, want.replaceAll(`${of}/`, '/job/').replaceAll(of, '/job'));

const all = async (driver, say) => {
  const page = (name, ...argv) =>
    driver.executeAsyncScript(
      'const back = arguments[arguments.length - 1]; window[arguments[0]](...[...arguments].slice(1, -1)).then(back, (e) => back({ fault: String(e) }))',
      name,
      ...argv,
    );
  await driver.manage().setTimeouts({ script: 240000 });
  await driver.get(`file://${dir}/page.html`);
  const opened = await driver.executeAsyncScript('opened.then(arguments[0])');
  const times = [];
  for (const words of ['compare', 'compare', 'fit', 'fit', 'year', 'year']) {
    const { result, ms, fault } = await page('edit', [words, '/job'], list);
    assert.equal(fault, undefined);
    assert.equal(result.status, 0, result.err);
    same(result.out, command([words, job]));
    times.push(`${words} ${Math.round(ms)}`);
  }
  for (let i = 0; i < 2; i++) {
    const made = await page('edit', ['sheet', '/job', ...sheet, '/out/sheet.html'], list);
    assert.equal(made.result.status, 0, made.result.err);
    command(['sheet', job, ...sheet, `${dir}/sheet.html`]);
    assert.deepEqual(made.result.files.map(([name]) => name), ['/out/sheet.html']);
    same(made.result.files[0][1], readFileSync(`${dir}/sheet.html`, 'utf8'));
    times.push(`sheet ${Math.round(made.ms)}`);
  }
  say(`open ${Math.round(opened)} ms, ${times.join(', ')}`);

  const refused = (await page('edit', ['fit', '/job'], [])).result;
  assert.notEqual(refused.status, 0);
  assert.match(refused.err, /^panewright: .*\n$/);

  // In a lane the newest wins; another lane is not touched.
  const compare = ['compare', '/job'];
  assert.deepEqual(await page('race', [[compare], [compare], [['fit', '/job']], [compare]], list), [null, null, 0, 0]);

  const range = ['compare', '/job', '--range', '--draws', '64', '--seed', '3'];
  const whole = await page('long', range, listOf(little), 101);
  assert.equal(whole.result.status, 0, whole.result.err);
  assert.ok(whole.told.length > 3 && whole.told.at(-1).percent === 100, JSON.stringify(whole.told));
  same(whole.result.out, command(['compare', little, ...range.slice(2)]), little);
  const cut = await page('long', range, listOf(little), 20);
  assert.equal(cut.result, null);
  assert.ok(cut.told.at(-1).percent < 100);
  assert.equal((await page('long', ['fit', '/job'], list, 101)).result.status, 0);

  // A name that leads out of the job is refused, and nothing of it is among what was written.
  for (const name of ['../out/sheet.html', '../dev/null', 'a/../../out/x', '/out/x', '../job/job.csv']) {
    const { result } = await page('edit', ['fit', '/job'], [...list, [name, 'x']]);
    assert.equal(result.status, 65, name);
    assert.match(result.err, /^panewright: the job's file .+\n$/);
    assert.deepEqual(result.files, []);
  }
  const shared = await page('edit', ['fit', '/job'], [...list, ['../shared/a.csv', 'x']]);
  assert.equal(shared.result.status, 0, shared.result.err);

  // A browser's own fault is made good by a second run; it is told here, so that it stays seen.
  for (const line of await driver.executeScript('return again()')) say(`made once more: ${line}`);
  const runs = await page('trapped', list);
  runs.forEach((run, i) => {
    if (i % 4 < 2) {
      assert.equal(run.status, 70);
      assert.match(run.err, /^panewright: the run broke off: .*unreachable.*\n$/i);
    } else {
      assert.equal(run.status, 0, run.err);
      same(run.out, command(['fit', job]));
    }
  });

  for (const run of await page('broken')) {
    assert.equal(run.status, 70);
    assert.match(run.err, /^panewright: the run broke off: .+\n$/);
  }
};

const { BROWSER } = process.env; // that alone
const wanted = (name) => !BROWSER || BROWSER === name;

test('Chromium', { timeout: 600000, skip: !wanted('Chromium') }, async (t) => {
  const driver = await chromium(`${dir}/profile`);
  try {
    await all(driver, (line) => t.diagnostic(line));
  } finally {
    await driver.quit();
  }
});

test('WebKit', { timeout: 600000, skip: !hasWebKit || !wanted('WebKit') }, async (t) => {
  const { driver, close } = await webkit(dir, 9613);
  try {
    await all(driver, (line) => t.diagnostic(line));
  } finally {
    await driver.quit().catch(() => {});
    close();
  }
});
