// The page in a browser, from its file: worked as a newcomer would, and held to what the issue asks of every view.
//   node --test tests/page/browser.mjs     (PAGE=build/page, PANEWRIGHT=build/panewright)
import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import {mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync} from 'node:fs';
import path from 'node:path';
import {after, before, test} from 'node:test';
import {pathToFileURL} from 'node:url';
import {By, Key, SIZES, cramped, faults, keptJobs, look, openBrowser, press, requests, unreached} from './driver.mjs';

const page = path.resolve(process.env.PAGE ?? 'build/page'), program = path.resolve(process.env.PANEWRIGHT ?? 'build/panewright');
const address = pathToFileURL(`${page}/panewright.html`).href;
const temp = mkdtempSync('/tmp/panewright-browser-');
let driver;

const $ = (css) => driver.wait(async () => (await driver.findElements(By.css(css)))[0], 30_000, `no ${css}`);
const textOf = async (css) => (await $(css)).getAttribute('textContent');
/* Waits until the element's text is as wanted; tells what it was else. */
async function shows(css, want) {
  let text = '';
  try {
    await driver.wait(async () => want.test(text = await textOf(css)), 20_000);
  } catch {
    assert.fail(`${css} never shows ${want}; it shows ${JSON.stringify(text)}`);
  }
}
const go = (n) => driver.executeScript('document.querySelectorAll("nav button")[arguments[0]].click()', n);
const reading = (name) => $(`input.reading[aria-label="${name}"]`);

async function retype(name, text) {
  await (await reading(name)).click();
  await driver.actions().keyDown(Key.CONTROL).sendKeys('a').keyUp(Key.CONTROL).sendKeys(text).perform();
}

async function fresh() {
  await driver.get(address);
  await $('.new button');
}

/* The native command's answer about the job as the browser keeps it. */
async function native(name, argv) {
  const job = (await keptJobs(driver)).find((j) => j.name === name);
  const folder = `${temp}/native`;
  rmSync(folder, {recursive: true, force: true});
  mkdirSync(folder);
  for (const [file, base64] of Object.entries(job.files)) writeFileSync(`${folder}/${file}`, Buffer.from(base64, 'base64'));
  return JSON.parse(execFileSync(program, [argv[0], folder, ...argv.slice(1)], {maxBuffer: 1 << 28}));
}

before(async () => { driver = await openBrowser(temp); });
after(async () => {
  await driver?.quit();
  rmSync(temp, {recursive: true, force: true});
});

test('a newcomer makes a job, types an opening and sees the verdict of the command', async () => {
  await fresh();
  await look(driver, SIZES[0]);
  await press(driver, 'New job');
  await $('.strip .one');
  await press(driver, 'Add an opening');
  await shows('.verdict', /not measured yet/);
  /* widths by thumb, the rest by a hardware keyboard */
  for (const key of ['4', '7', '1/2', 'next', '4', '7', '9/16', 'next', '4', '7', '1/2', 'next']) {
    const b = await driver.executeScript('return [...document.querySelectorAll(".key")].find((k) => k.textContent.trim().split(" ")[0].replace("›", "") === arguments[0])', key);
    await b.click();
  }
  assert.equal(await (await reading('width in the middle')).getAttribute('value'), '47 9/16');
  await driver.actions().sendKeys('35 1/2', Key.ENTER, '35 1/2', Key.ENTER, '35 7/16', Key.ENTER, '59 5/16', Key.ENTER, '59 5/16').perform();
  await shows('.verdict', /^Fits: order/);
  await driver.sleep(300);
  const said = (await native('My first job', ['fit', '--format', 'json'])).openings.at(-1).said;
  assert.equal((await textOf('.verdict p')).trim(), said.verdict);
  /* ten inches too many, as a tape is misread */
  await retype('width at the top', '37 1/2');
  await shows('.verdict', /^Measure again/);
});

test('a reload in the middle of typing loses nothing', async () => {
  await retype('width at the top', '47 1');
  await driver.wait(async () => /^"?47 1"?$/.test(Buffer.from((await keptJobs(driver))[0].files['openings.csv'], 'base64').toString().trim().split('\n').at(-1).split(',')[8]), 5000);
  await driver.navigate().refresh();
  await (await $('.jobs .job')).click();
  await $('.strip .one');
  await driver.executeScript('[...document.querySelectorAll(".one")].find((b) => b.textContent.startsWith("3")).click()');
  assert.equal(await (await reading('width at the top')).getAttribute('value'), '47 1');
  assert.equal(await (await reading('height in the middle')).getAttribute('value'), '35 1/2');
});

test('undo takes back one edit', async () => {
  await retype('width at the top', '47 5/16');
  await driver.actions().keyDown(Key.CONTROL).sendKeys('z').keyUp(Key.CONTROL).perform();
  assert.equal(await (await reading('width at the top')).getAttribute('value'), '47 1');
});

test('the figures beside a package are those of the command, and a word that is tapped changes them', async () => {
  await fresh();
  await press(driver, 'The whole example');
  await $('.strip .one');
  await go(2);
  const cell = (row, i) => driver.executeScript('return document.querySelectorAll(".figures")[arguments[0]]?.querySelectorAll("dd")[arguments[1]]?.textContent', row, i);
  await driver.wait(() => cell(2, 0), 30_000);
  const want = (await native('Example house', ['compare', '--format', 'json'])).said.house.packages;
  for (const [row, p] of want.entries()) {
    assert.equal(await cell(row, 0), `${p.u_w_m2k} Btu/h-ft2-F`);
    assert.deepEqual([await cell(row, 1), await cell(row, 2), await cell(row, 6)], [p.shgc, p.vt, p.price]);
  }
  await press(driver, 'argon 90%');
  await press(driver, 'krypton 90%');
  await driver.wait(async () => (await cell(1, 0)) !== `${want[1].u_w_m2k} Btu/h-ft2-F`, 30_000);
  const now = (await native('Example house', ['compare', '--format', 'json'])).said.house.packages[1];
  assert.equal(await cell(1, 0), `${now.u_w_m2k} Btu/h-ft2-F`);
  await driver.actions().keyDown(Key.CONTROL).sendKeys('z').keyUp(Key.CONTROL).perform();
});

test('the answer is the sheet; its range comes from behind and can be cancelled', async () => {
  await go(3);
  await shows('.answer .taken', /The question and the answer/);
  await shows('.sure', /Computing the range/);
  await press(driver, 'Cancel');
  await shows('.sure', /Compute the range/);
  await press(driver, 'Compute the range');
  await driver.wait(async () => /With ranges of 8 in 10/.test(await textOf('.sure')), 120_000);
  assert.match(await textOf('.answer .taken table.bands'), /\$\d+ to \$\d+/);
});

const VIEWS = [['house', () => go(0)], ['opening', async () => { await go(0); await (await $('.one')).click(); await $('.board'); }], ['glass', () => go(2)], ['answer', () => go(3)],
  ['papers', () => go(4)], ['show', () => press(driver, 'Show')], ['start', async () => { await press(driver, 'Close'); await driver.executeScript('document.querySelector(".head button").click()'); await $('.jobs'); }]];

test('every view at three sizes, light and dark: axe finds nothing, nothing overflows, thumbs fit, Tab reaches all', async () => {
  for (const [name, to] of VIEWS) {
    await to();
    await driver.sleep(name === 'papers' ? 4000 : 900);
    for (const size of SIZES) {
      for (const theme of ['light', 'dark']) {
        await look(driver, size, theme);
        assert.deepEqual(await faults(driver), [], `${name} ${size} ${theme}`);
      }
      assert.deepEqual(await cramped(driver), [], `${name} ${size}`);
    }
    assert.deepEqual(await unreached(driver), [], name);
  }
});

test('a job goes out as .zip with its bytes and comes in again; hostile cells stay text', async () => {
  await fresh();
  await press(driver, 'Save to a file');
  const file = await driver.wait(() => readdirSync(temp).find((f) => f.endsWith('.zip')), 10_000);
  const folder = `${temp}/out`;
  execFileSync('python3', ['-c', 'import sys, zipfile; zipfile.ZipFile(sys.argv[1]).extractall(sys.argv[2])', `${temp}/${file}`, folder]);
  const [name] = readdirSync(folder);
  for (const f of readdirSync('examples/harrow_bend')) assert.deepEqual(readFileSync(`${folder}/${name}/${f}`), readFileSync(`examples/harrow_bend/${f}`), f);

  const evil = '<img src=x onerror=window.struck=1><script>window.struck=1</script>';
  let text = readFileSync(`${folder}/${name}/openings.csv`, 'utf8');
  text = text.replace('K1,Kitchen,', `K1,"${evil}",`).replace('sink below', evil);
  writeFileSync(`${folder}/${name}/openings.csv`, text);
  writeFileSync(`${folder}/${name}/job.csv`, readFileSync(`${folder}/${name}/job.csv`, 'utf8').replace('Harrow Bend 14', evil));
  execFileSync('python3', ['-c', 'import shutil, sys; shutil.make_archive(sys.argv[1], "zip", sys.argv[2])', `${temp}/evil`, folder]);
  await driver.findElement(By.css('input[accept]')).sendKeys(`${temp}/evil.zip`);
  await driver.wait(async () => (await driver.findElements(By.css('.jobs .job'))).length === 3, 10_000);
  await (await $('.jobs .job')).click();
  await $('.strip .one');
  assert.equal(await textOf('.head h1'), evil);
  await shows('.strip', /<img src=x/);
  for (const [, to] of VIEWS.slice(0, 6)) {
    await to();
    await driver.sleep(1500);
  }
  assert.equal(await driver.executeScript('return window.struck ?? null'), null);
  assert.equal(await driver.executeScript('return document.querySelectorAll("img[src=x], script[src]").length'), 0);
});

test('a second tab on the job can only read, and says why', async () => {
  await fresh();
  await (await $('.jobs .job')).click();
  await $('.strip .one');
  const first = await driver.getWindowHandle();
  await driver.switchTo().newWindow('tab');
  await fresh();
  await (await $('.jobs .job')).click();
  await shows('.trouble', /another tab/);
  await driver.close();
  await driver.switchTo().window(first);
});

test('no request has left, and the page has logged no error', async () => {
  assert.deepEqual(await requests(driver), []);
  const told = (await driver.manage().logs().get('browser')).filter((l) => l.level.name === 'SEVERE').map((l) => l.message);
  assert.deepEqual(told, []);
});
