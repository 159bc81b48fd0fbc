// The site on a plain web host: after the first visit it works with the host gone. What the policy of site and file says, and that
// the browser holds to it.
import assert from 'node:assert/strict';
import {createHash, randomBytes} from 'node:crypto';
import {cpSync, readFileSync, readdirSync, rmSync, writeFileSync} from 'node:fs';
import {test} from 'node:test';
import {By, SIZES, errors, requests} from './driver.mjs';
import {pythonZips} from './program.mjs';
import {webHost} from './web_host.mjs';

const policyOf = (html) => /<meta http-equiv="Content-Security-Policy" content="([^"]*)">/.exec(html)?.[1];

/* Asks for another host in every way that a page has; which of them the page was let do. */
export const REACH = `const there = arguments[0], got = [], say = (name) => got.push(name);
  const add = (name, tag, some) => { const e = Object.assign(document.createElement(tag), some); e.onload = () => say(name); (tag === 'link' ? document.head : document.body).append(e); };
  fetch(there + 'fetch').then(() => say('fetch'), () => {});
  const x = new XMLHttpRequest();
  x.onload = () => say('xhr');
  for (const each of [() => { x.open('GET', there + 'xhr'); x.send(); }, () => navigator.sendBeacon(there + 'beacon', 'x'), () => { new WebSocket(there.replace('http', 'ws') + 'socket').onopen = () => say('socket'); },
    () => { new EventSource(there + 'events').onopen = () => say('events'); }, () => { import(there + 'module.js').then(() => say('module'), () => {}); },
    () => { const f = Object.assign(document.createElement('form'), {action: there + 'form', target: 'nowhere'}); document.body.append(f); f.submit(); }]) try { each(); } catch {}
  for (const each of [() => (0, eval)('window.evaled = 1'), () => new Function('window.evaled = 1')(), () => setTimeout('window.evaled = 1')]) setTimeout(each); /* a driver's own script may, what runs later may not */
  add('image', 'img', {src: there + 'image.png'});
  add('script', 'script', {src: there + 'script.js'});
  add('inline script', 'script', {textContent: 'window.inlined = 1'});
  add('style', 'link', {rel: 'stylesheet', href: there + 'style.css'});
  add('object', 'object', {data: there + 'object'});
  add('video', 'video', {src: there + 'video'});
  add('frame', 'iframe', {src: there + 'frame.html'});
  add('font', 'style', {textContent: '@font-face { font-family: x; src: url(' + there + 'font.woff) } body { font-family: x, sans-serif }'});
  return new Promise((done) => setTimeout(() => {
    if (window.inlined) say('inline script that ran');
    if (window.evaled) say('eval');
    done(got.filter((name) => !['inline script', 'font', 'frame'].includes(name)));
  }, 1200));`; /* a frame that is refused has loaded its refusal; the host notes what was asked of it */

const CONTROLLED = `await navigator.serviceWorker.ready;
  while (!navigator.serviceWorker.controller) await new Promise((done) => setTimeout(done, 50));
  return true`;

export function site(at, page) {
  test('the policy of the file and of the site is the one agreed', () => {
    const file = readFileSync(`${page}/panewright.html`, 'utf8'), index = readFileSync(`${page}/site/index.html`, 'utf8');
    const scripts = [...file.matchAll(/<script>([^]*?)<\/script>/g)].map(([, code]) => `'sha256-${createHash('sha256').update(code).digest('base64')}'`);
    assert.equal(scripts.length, 1);
    /* forms are no part of default-src and are forbidden by a word of their own */
    assert.equal(policyOf(file), `default-src 'none'; script-src ${scripts.join(' ')} 'wasm-unsafe-eval'; worker-src blob:; style-src 'unsafe-inline'; img-src data: blob:; base-uri 'none'; form-action 'none'`);
    assert.equal(policyOf(index), "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src blob: 'self'; style-src 'unsafe-inline'; img-src data: blob:; base-uri 'none'; form-action 'none'; manifest-src 'self'; connect-src 'self'");
    for (const html of [file, index]) {
      assert.ok(html.indexOf('Content-Security-Policy') < html.search(/<script|<style|<link/), 'the policy comes before all that it rules');
      assert.doesNotMatch(html, /<[^>]*\s(src|href|action|srcset|data)="(https?:)?\/\//);
    }
    const names = readdirSync(`${page}/site`, {recursive: true}).map(String);
    for (const name of ['index.html', 'page.js', 'service.js', 'manifest.webmanifest']) assert.ok(names.includes(name), name);
  });

  test('the browser holds to it: nothing reaches another host, no script but the page\'s own runs', async () => {
    const other = await webHost(at.temp);
    try {
      await at.fresh();
      assert.deepEqual(await at.js(REACH, other.url), []);
      await errors(at.driver); /* each refusal was logged */
      await requests(at.driver);
      assert.deepEqual(other.asked, []);
    } finally {
      await other.close();
    }
  });

  test('the site: after the first visit it works with the host gone, and asks nobody', async () => {
    const host = await webHost(`${page}/site`), file = at.address;
    const foreign = async () => (await requests(at.driver)).filter((url) => !url.startsWith(host.url));
    try {
      await requests(at.driver);
      at.address = host.url;
      await at.fresh();
      await at.size(SIZES[0]);
      await at.js(CONTROLLED);
      const own = new Set(['/', ...readdirSync(`${page}/site`, {recursive: true}).map((f) => `/${f}`)]);
      assert.deepEqual(host.asked.filter((name) => !own.has(name)), []);
      assert.deepEqual(await foreign(), []);
      /* With the host there: the page asks for nothing more. The browser itself looks whether service.js is newer. */
      host.asked.length = 0;
      await at.fresh();
      await at.press('New job');
      await at.$('.strip .one');
      await at.sleep(1500);
      assert.deepEqual(host.asked.filter((name) => name !== '/service.js'), []);
      await host.close();
      for (let n = 0; n < 2; n++) {
        await at.fresh();
        await at.press('The whole example');
        await at.$('.strip .one');
        await at.openOne('L2');
        await at.shows('.verdict', /^Fits: order 48 1.8 x 47 5.8 in/);
      }
      await at.go(2); /* the picture's program was never asked for before */
      await at.$('.figures dd:not(:empty)');
      await at.press('Picture of the unit');
      await at.until('return document.querySelector(".picture img")?.naturalWidth > 0', 'the picture');
      assert.deepEqual(await foreign(), []);
      await at.browser.open(`${host.url}index.html?from=home`);
      await at.$('.jobs .job');
      await at.browser.open(`${host.url}nothing/here`).catch(() => {});
      await host.open();
    } finally {
      at.address = file;
      await host.close();
    }
  });

  test('a newer site takes the place of the older one whole, once the older one is closed', async () => {
    const folder = `${at.temp}/site`, file = at.address;
    cpSync(`${page}/site`, folder, {recursive: true});
    const host = await webHost(folder);
    try {
      at.address = host.url;
      await at.fresh();
      await at.js(CONTROLLED);
      for (const [name, from, to] of [['index.html', '<title>panewright', '<title>newer'], ['service.js', /STATE = '.{4}/, "STATE = 'beef"]]) writeFileSync(`${folder}/${name}`, readFileSync(`${folder}/${name}`, 'utf8').replace(from, to));
      await at.fresh();
      await at.js('const r = await navigator.serviceWorker.ready; await r.update(); while (!r.waiting) await new Promise((done) => setTimeout(done, 50)); return true');
      const titled = () => at.js('return fetch("./").then((r) => r.text()).then((t) => /<title>(.*?)</.exec(t)[1])');
      assert.equal(await titled(), 'panewright');
      await at.browser.open(file);
      await at.wait(async () => {
        await at.browser.open(host.url);
        const now = await titled();
        await at.browser.open(file);
        return now === 'newer';
      }, 'the newer page');
      await at.browser.open(host.url);
      assert.equal((await at.js('return caches.keys()')).length, 1);
    } finally {
      at.address = file;
      await host.close();
    }
  });

  test('storage full: one is told before anything is lost; what is typed stays and can be saved to a file', async () => {
    const plain = `${at.temp}/plain`, file = at.address;
    cpSync(`${page}/site`, plain, {recursive: true});
    rmSync(`${plain}/service.js`); /* whose cache would take of the room, sooner or later */
    const host = await webHost(plain);
    try {
      at.address = host.url; /* an origin of its own, and before it is opened: the browser remembers for a while how much room there was */
      await at.driver.sendAndGetDevToolsCommand('Storage.overrideQuotaForOrigin', {origin: host.url, quotaSize: 6 << 20});
      await at.fresh();
      await at.size(SIZES[2]);
      await at.made('New job');
      const told = () => at.js('return document.querySelector(".trouble")?.textContent ?? ""'), room = 'css:.field input[id$="-room"]';
      const disk = async (file) => (await at.files('My first job')).get(file) ?? '';
      const send = async (css, file) => (await at.driver.findElement(By.css(css))).sendKeys(file);
      await at.fresh();
      const zip = `${at.temp}/full.zip`, jobs = 'return document.querySelectorAll(".jobs .job").length';
      let had = 0, line = '';
      for (let n = 0; line === '' && n < 40; n++) { /* less than a megabyte at a time */
        had = await at.js(jobs);
        writeFileSync(zip, pythonZips([`import os\nz.writestr('house ${n}/job.csv', 'item,value\\n')\nz.writestr('house ${n}/a.epw', os.urandom(900000))`])[0]);
        await send('input[accept^=".zip"]', zip);
        await at.wait(async () => (line = await told()) !== '' || (await at.js(jobs)) > had, 'the folder is kept, or it is said why not');
        await at.sleep(200); /* the room is asked after the list is shown */
        line = await told();
      }
      assert.match(line, /^storage is full but for a reserve, which was used: save to a file, or delete a job$/);
      assert.ok((await at.js(jobs)) >= had, 'what was kept before is there'); /* the edit in hand: model_store */
      await at.open('My first job');
      await at.openOne('1');
      await at.retype(room, 'Den');
      await at.shows('.trouble', /^storage is full but for a reserve/);
      await at.wait(async () => /,Den,/.test(String(await disk('openings.csv'))), 'what is typed then is kept');
      writeFileSync(`${at.temp}/order.csv`, randomBytes(2_000_000));
      await at.go(4);
      await at.$('main input[accept^=".csv"]');
      await send('main input[accept^=".csv"]', `${at.temp}/order.csv`);
      await at.shows('.trouble', /^storage is full: the last edits are in this tab alone; save to a file, or delete a job$/);
      assert.equal(String(await disk('order_sent.csv')), '', 'nothing is kept in part');
      assert.match(String(await disk('openings.csv')), /,Den,/, 'what was kept before is there');
      await at.shows('.shelf', /Held against the order that was sent/); /* and what could not be kept is in the tab */
    } finally {
      await at.driver.sendAndGetDevToolsCommand('Storage.overrideQuotaForOrigin', {origin: host.url});
      at.address = file;
      await host.close();
      await at.browser.open(file);
    }
  });
}
