// A person at the page, in any browser: finds things by what is written on them, and taps, clicks and types.
import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import {mkdirSync, readFileSync, rmSync, writeFileSync} from 'node:fs';
import path from 'node:path';

/* Keys as WebDriver writes them (W3C WebDriver, 17.4.2 Keyboard Actions). */
export const Key = {TAB: '\uE004', ENTER: '\uE007', SHIFT: '\uE008', CONTROL: '\uE009', ESCAPE: '\uE00C', ARROW_LEFT: '\uE012', ARROW_RIGHT: '\uE014', ARROW_DOWN: '\uE015'};

/* What can be worked, and what is written on it: its accessible name. what: that name or its beginning, or 'css:' with a selector. */
const FIND = `const said = (e) => [...e.childNodes].map((n) => (n.nodeType === 3 ? n.data : n.nodeType === 1 && n.getAttribute('aria-hidden') !== 'true' ? said(n) : '')).join('');
  const name = (e) => (e.getAttribute('aria-label') ?? said(e.labels?.[0] ?? e)).trim();
  const is = (e, what) => e !== document.body && (what.startsWith('css:') ? e.matches(what.slice(4)) : name(e) === what || (what.length > 1 && name(e).startsWith(what)));
  const there = (e) => !e.disabled && e.getClientRects().length > 0;
  const find = (what) => {
    if (what.startsWith('css:')) return [...document.querySelectorAll(what.slice(4))].find(there);
    const all = [...document.querySelectorAll('button, summary, label')].filter(there);
    return all.find((e) => name(e) === what) ?? all.find((e) => is(e, what));
  };`;

const KEPT = `const name = arguments[0]; return new Promise((done, no) => {
  const open = indexedDB.open('panewright');
  open.onerror = no;
  open.onsuccess = () => {
    const tx = open.result.transaction(['jobs', 'files']), all = [];
    tx.objectStore('jobs').getAll().onsuccess = (e) => {
      for (const row of e.target.result.filter((r) => !r.removed && (name === '' || r.name === name))) {
        const job = {id: row.id, name: row.name, files: {}};
        all.push(job);
        for (const name of row.names) tx.objectStore('files').get([row.id, name]).onsuccess = (f) => {
          job.files[name] = btoa(Array.from(f.target.result, (b) => String.fromCharCode(b)).join(''));
        };
      }
    };
    tx.oncomplete = () => { open.result.close(); done(all); };
  };
})`;

/* browser: {js(script, ...values), open(url), mouse(x, y), touch(x, y), keys(...keys), chord(...keys), size([w, h], theme)}; a script may
 * give a promise; values and what comes back are plain. */
export class Hands {
  constructor(browser, {address, temp, program}) {
    Object.assign(this, {browser, address, temp, program: path.resolve(program)});
  }

  js(script, ...more) {
    return this.browser.js(script, ...more);
  }

  size(size, theme) {
    return this.browser.size(size, theme);
  }

  /* Waits until the script gives something; what it gave. */
  async until(script, what, ...more) {
    return this.wait(() => this.js(script, ...more), what);
  }

  async wait(what, line, ms = 30_000) {
    const end = Date.now() + ms;
    for (;;) {
      const got = await what();
      if (got) return got;
      assert.ok(Date.now() < end, `waited in vain for ${line}`);
      await this.sleep(40);
    }
  }

  sleep(ms) {
    return new Promise((done) => setTimeout(done, ms));
  }

  $(css) {
    return this.until('return Boolean(document.querySelector(arguments[0]))', css, css);
  }

  async text(css) {
    await this.$(css);
    return this.js('return document.querySelector(arguments[0]).textContent', css);
  }

  async value(css) {
    await this.$(css);
    return this.js('return document.querySelector(arguments[0])?.value', css);
  }

  /* Waits until the text of css is as wanted; tells what it was else. */
  async shows(css, want, ms = 30_000) {
    let text = '';
    try {
      await this.wait(async () => want.test((text = await this.js('return document.querySelector(arguments[0])?.textContent ?? ""', css))), css, ms);
    } catch {
      assert.fail(`${css} never shows ${want}; it shows ${JSON.stringify(text.slice(0, 600))}`);
    }
  }

  /* Where to hit it, after it was scrolled into sight; nothing may lie over it. */
  async place(what) {
    const at = await this.until(`${FIND}
      const e = find(arguments[0]);
      if (!e) return null;
      e.scrollIntoView({block: 'center', inline: 'center'});
      const b = e.getBoundingClientRect(), x = b.left + b.width / 2, y = b.top + b.height / 2, hit = document.elementFromPoint(x, y);
      return {x: Math.round(x), y: Math.round(y), over: hit && (e.contains(hit) || hit.contains(e)) ? null : (hit?.outerHTML ?? 'the edge of the window').slice(0, 120)}`, what, what);
    assert.equal(at.over, null, `over ${what} lies ${at.over}`);
    return at;
  }

  /* With a finger; with the mouse. */
  async tap(what) {
    const {x, y} = await this.place(what);
    await this.browser.touch(x, y);
  }

  async press(what) {
    const {x, y} = await this.place(what);
    await this.browser.mouse(x, y);
  }

  /* With the keyboard: what has the focus gets them. */
  keys(...keys) {
    return this.browser.keys(...keys);
  }

  chord(...keys) {
    return this.browser.chord(...keys);
  }

  /* Tab until it has the focus. */
  async tabTo(what) {
    for (let n = 0; n < 150; n++) {
      if (await this.js(`${FIND} return is(document.activeElement, arguments[0])`, what)) return;
      await this.keys(Key.TAB);
    }
    assert.fail(`the Tab key never reaches ${what}`);
  }

  async retype(what, text) {
    await this.press(what);
    await this.chord(Key.CONTROL, 'a');
    await this.keys(text);
  }

  go(n) {
    return this.js('document.querySelectorAll("nav button")[arguments[0]].click()', n);
  }

  async fresh() {
    await this.browser.open(this.address);
    await this.$('.new button');
  }

  /* Opens the job that is so called; one of its openings by its tag. */
  async open(name) {
    await this.fresh();
    await this.until(`const b = [...document.querySelectorAll('.jobs .job')].find((e) => e.querySelector('b').textContent === arguments[0]); b?.click(); return Boolean(b)`, `the job ${name}`, name);
    await this.$('.strip .one');
  }

  async openOne(tag) {
    await this.until(`const b = [...document.querySelectorAll('.one')].find((e) => e.textContent.startsWith(arguments[0])); b?.click(); return Boolean(b)`, `the opening ${tag}`, tag);
    await this.$('.board');
    await this.until('return !document.querySelector(".verdict.is-waiting")', 'the verdict'); /* it moves what lies below it */
  }

  /* A job made by that button of the start view, open at its house; its name. */
  async made(button, hit = (what) => this.press(what)) {
    await this.fresh();
    const before = (await this.kept()).map((j) => j.id);
    await hit(button);
    await this.$('.strip .one');
    return (await this.kept()).find((j) => !before.includes(j.id)).name;
  }

  /* The jobs that the browser keeps: [{id, name, files: {name: base64}}]. */
  kept() {
    return this.js(KEPT, '');
  }

  /* One of them, Map name -> Buffer. */
  async files(name) {
    const [job] = await this.js(KEPT, name);
    assert.ok(job, `no job ${name} is kept`);
    return new Map(Object.entries(job.files).map(([file, base64]) => [file, Buffer.from(base64, 'base64')]));
  }

  /* The command's answer about the job as the browser keeps it. */
  async native(name, argv, but = []) {
    const folder = `${this.temp}/native`;
    rmSync(folder, {recursive: true, force: true});
    mkdirSync(folder);
    for (const [file, bytes] of await this.files(name)) if (!but.includes(file)) writeFileSync(`${folder}/${file}`, bytes);
    return this.command([argv[0], folder, ...argv.slice(1)]);
  }

  read(file, as = 'utf8') {
    return readFileSync(`${this.temp}/${file}`, as);
  }

  command(argv) {
    return execFileSync(this.program, argv, {maxBuffer: 1 << 28, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe']});
  }
}
