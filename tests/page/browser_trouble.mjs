// What goes wrong while one works: a reload, a tab that is killed, a second tab, storage full, the engine broken off. Nothing is lost
// and each says in a line what is the matter.
import assert from 'node:assert/strict';
import {spawn} from 'node:child_process';
import {test} from 'node:test';
import {SIZES} from './driver.mjs';
import {Key} from './hands.mjs';

/* The calls to the engine's worker, so that a test can break the next run of a worker off: 'line', as a fault of the program does,
 * or 'dead', as one that no worker outlives. */
export const BREAK = `window.broken = 0;
  const post = Worker.prototype.postMessage;
  Worker.prototype.postMessage = function (data, ...more) {
    const how = window.breakNext;
    if (!data?.run || !how) return post.call(this, data, ...more);
    window.broken++;
    if (!window.breakAll) window.breakNext = '';
    return post.call(this, how === 'line' ? {run: {...data.run, files: 7}} : {}, ...more);
  };`;

export function trouble(at) {
  let name = '';
  const typed = async () => {
    const lines = String((await at.files(name)).get('openings.csv')).trim().split('\n').filter((l) => !l.startsWith('#'));
    return lines.at(-1).split(',')[lines[0].split(',').indexOf('room')];
  };
  const room = '.field input[id$="-room"]';
  const toRoom = async () => {
    await at.open(name);
    await at.openOne('2');
    await at.press(`css:${room}`);
    await at.chord(Key.CONTROL, 'a');
  };

  test('a reload in the middle of typing loses nothing', async () => {
    await at.size(SIZES[2]);
    name = await at.made('New job');
    await toRoom();
    await at.keys('Dining roo');
    await at.js('location.reload()');
    await at.$('.new button');
    await toRoom();
    assert.equal(await at.value(room), 'Dining roo');
    assert.equal(await typed(), 'Dining roo', 'on disk');
  });

  test('the tab is closed in the middle of typing, at once and on a busy machine: what was typed is there', async (t) => {
    const other = await at.driver.getWindowHandle(), busy = [];
    const quiet = () => busy.splice(0).forEach((p) => p.kill());
    t.after(quiet);
    await at.fresh();
    for (const text of ['Den of the house', 'Attic', 'Back bedroom 2']) {
      await at.driver.switchTo().newWindow('tab');
      await at.size(SIZES[2]);
      await toRoom();
      for (let n = 0; n < 6; n++) busy.push(spawn('sh', ['-c', 'while :; do :; done'], {stdio: 'ignore'}));
      await at.keys(text);
      await at.driver.close(); /* no question is asked, no page is told */
      quiet();
      await at.driver.switchTo().window(other);
      await toRoom();
      assert.equal(await at.value(room), text);
      assert.equal(await typed(), text, 'on disk');
      await at.fresh();
    }
  });

  test('a second tab on the job can only read and says why; when the first is closed it can write', async () => {
    await at.open(name);
    const first = await at.driver.getWindowHandle();
    await at.driver.switchTo().newWindow('tab');
    const second = await at.driver.getWindowHandle();
    await at.size(SIZES[2]);
    await at.open(name);
    await at.shows('.trouble', /^Open in another tab, so it can only be read here; close it there, or make a copy\./);
    const before = await at.kept();
    for (const n of [0, 1, 2, 3, 4]) {
      await at.go(n);
      await at.$('main > *');
      const open = await at.js('return [...document.querySelectorAll("main input, main select")].filter((e) => !e.disabled && !e.readOnly && !e.closest(".if") && !e.id.startsWith("paper-") && !e.closest(".choices")).map((e) => e.outerHTML)');
      assert.deepEqual(open, [], `place ${n}`);
    }
    await at.go(1);
    await at.press('css:input.reading');
    await at.keys('9 1/2');
    await at.sleep(300);
    assert.deepEqual(await at.kept(), before);
    await at.driver.switchTo().window(first);
    await at.driver.close();
    await at.driver.switchTo().window(second);
    await at.until('return !document.querySelector(".trouble")', 'the second tab still only reads');
    await at.$('.board'); /* one stands where one stood */
    await at.go(0);
    await at.openOne('2');
    await at.press(`css:${room}`);
    await at.chord(Key.CONTROL, 'a');
    await at.keys('Hall');
    await at.wait(async () => (await typed()) === 'Hall', 'what the second tab writes');
  });

  test('the engine breaks off: its line is shown, it starts again and the typing is kept', async () => {
    const {identifier} = await at.driver.sendAndGetDevToolsCommand('Page.addScriptToEvaluateOnNewDocument', {source: BREAK});
    for (const [how, line] of [['line', /the run broke off: /], ['dead', /the run broke off: /]]) {
      await toRoom();
      await at.keys('Study');
      await at.shows('.which', /Study/);
      await at.js('window.breakNext = arguments[0]; window.breakAll = true', how);
      await at.keys(' 4');
      await at.shows('#page', line);
      assert.doesNotMatch(await at.text('#page'), /Elsewhere in the job: the run broke off/);
      assert.equal(await at.value(room), 'Study 4');
      await at.js('window.breakAll = false; window.breakNext = ""');
      assert.ok(await at.js('return window.broken') > 0);
      await at.keys('2');
      await at.until('return !/the run broke off/.test(document.querySelector("#page").textContent)', 'the line stays');
      await at.shows('.verdict', /\S/);
      assert.equal(await at.value(room), 'Study 42');
      assert.equal(await typed(), 'Study 42');
    }
    await at.driver.sendDevToolsCommand('Page.removeScriptToEvaluateOnNewDocument', {identifier});
  });

  test('a browser that keeps nothing says so, and works', async () => {
    const {identifier} = await at.driver.sendAndGetDevToolsCommand('Page.addScriptToEvaluateOnNewDocument', {source: 'Object.defineProperty(window, "indexedDB", {value: undefined})'});
    await at.fresh();
    await at.shows('.trouble', /^this browser forgets; save to a file$/);
    await at.press('New job');
    await at.$('.strip .one');
    await at.openOne('1');
    await at.shows('.verdict', /\S/);
    await at.driver.sendDevToolsCommand('Page.removeScriptToEvaluateOnNewDocument', {identifier});
  });
}
