// The page in WebKit and in Firefox: what a newcomer does, held to the command; kept over a reload; nobody asked; the site without its host.
//   node --import ./tests/page/modules.mjs --test tests/page/browser_others.mjs     (PAGE=build/page, PANEWRIGHT=build/panewright; BROWSER=Firefox: that alone)
import assert from 'node:assert/strict';
import {mkdtempSync, readdirSync, rmSync} from 'node:fs';
import path from 'node:path';
import {after, before, describe, test} from 'node:test';
import {pathToFileURL} from 'node:url';
import {firefox, hasFirefox} from './bidi.mjs';
import {newcomer} from './browser_newcomer.mjs';
import {hasWebKit, webkit} from './browser_page.mjs';
import {REACH} from './browser_site.mjs';
import {worked} from './driver.mjs';
import {Hands} from './hands.mjs';
import {webHost} from './web_host.mjs';

const page = path.resolve(process.env.PAGE ?? 'build/page'), program = process.env.PANEWRIGHT ?? 'build/panewright';

async function openWebKit(dir) {
  const {driver, close} = await webkit(dir, 8000 + (process.pid % 1000));
  const browser = worked(driver);
  return {browser: {...browser, touch: browser.mouse, size: ([width, height]) => driver.manage().window().setRect({x: 0, y: 0, width, height})},
    requests: () => browser.js('return performance.getEntriesByType("resource").map((e) => e.name).filter((n) => !/^(file|blob|data|about):/.test(n))'),
    files: async (css, [file]) => (await driver.findElement({css})).sendKeys(file),
    close: async () => {
      await driver.quit().catch(() => {});
      close();
    }};
}

const {BROWSER} = process.env;
const all = (name, has, open) => (!BROWSER || BROWSER === name) && describe(name, {skip: !has && `no ${name} here`}, () => {
  const temp = mkdtempSync(`/tmp/panewright-${name}-`), at = new Hands(null, {address: pathToFileURL(`${page}/panewright.html`).href, temp, program});
  let it;
  before(async () => {
    it = await open(temp);
    at.browser = it.browser;
  });
  after(async () => {
    await it?.close();
    rmSync(temp, {recursive: true, force: true});
  });

  newcomer(at, {range: false});

  test('every place comes up; what was typed is there after a reload', async () => {
    const name = await at.made('New job');
    for (const [n, css] of [[1, '.board'], [2, '.figures dd:not(:empty)'], [3, '.answer .taken'], [4, '.paper:not([disabled])']]) {
      await at.go(n);
      await at.$(css);
    }
    await at.press('Measuring form');
    await at.until('return /Measuring form/.test(document.querySelector("iframe")?.contentDocument?.body?.textContent)', 'the paper in its frame');
    await at.press('Show');
    await at.shows('.show h1', /The glass is at/);
    await at.press('Close');
    await at.go(0);
    await at.openOne('2');
    await at.retype('css:.field input[id$="-room"]', 'Dining roo');
    await at.open(name);
    await at.openOne('2');
    assert.equal(await at.value('.field input[id$="-room"]'), 'Dining roo');
  });

  test('no request has left, and the policy lets none leave', async () => {
    assert.deepEqual(await it.requests(), []);
    const other = await webHost(temp);
    try {
      await at.fresh();
      assert.deepEqual(await at.js(REACH, other.url), []);
      assert.deepEqual(other.asked, []);
    } finally {
      await other.close();
    }
  });

  test('the site works with its host gone', async (t) => {
    const host = await webHost(`${page}/site`), file = at.address;
    try {
      at.address = host.url;
      await at.fresh();
      if (!(await at.js('return Boolean(navigator.serviceWorker)'))) return t.skip('no service workers in this build of the browser');
      await at.js('await navigator.serviceWorker.ready; while (!navigator.serviceWorker.controller) await new Promise((done) => setTimeout(done, 50))');
      const own = new Set(['/', ...readdirSync(`${page}/site`, {recursive: true}).map((f) => `/${f}`)]);
      assert.deepEqual(host.asked.filter((name) => !own.has(name)), []);
      await host.close();
      await at.made('The whole example');
      await at.openOne('L2');
      await at.shows('.verdict', /^Fits: order 48 1.8 x 47 5.8 in/);
      await at.go(2);
      await at.$('.figures dd:not(:empty)');
      await at.press('Picture of the unit');
      await at.until('return document.querySelector(".picture img")?.naturalWidth > 0', 'the picture');
    } finally {
      at.address = file;
      await host.close().catch(() => {});
    }
  });
});

all('WebKit', hasWebKit, openWebKit);
all('Firefox', hasFirefox, firefox);
