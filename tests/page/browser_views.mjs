// Every view, at three sizes, light and dark: nothing overflows, thumbs fit, axe finds nothing, the Tab key reaches all.
import assert from 'node:assert/strict';
import {test} from 'node:test';
import {SIZES, cramped, faults, spill, unreached} from './driver.mjs';

const idle = (at) => at.until('return !document.querySelector("[aria-busy=true]") && ![...document.querySelectorAll(".soft, .paper")].some((e) => e.checkVisibility() && /The program is at work|El programa trabaja/.test(e.textContent))', 'the program is still at work');

/* Each view, opened from the one before it. A new one stands here. */
export const VIEWS = [
  ['house', async (at) => at.go(0)],
  ['house, all folds open', async (at) => unfold(at)],
  ['opening', async (at) => {
    await at.go(0);
    await at.openOne('L1');
  }],
  ['opening, all folds open', async (at) => unfold(at)],
  ['glass', async (at) => at.go(2)],
  ['glass, a word tapped and all folds open', async (at) => {
    await at.press('argon 90%');
    await at.$('.choice');
    await unfold(at);
    await at.until('return document.querySelector(".picture img")?.complete', 'the picture');
  }],
  ['answer', async (at) => {
    await at.go(3);
    await at.$('.answer .taken');
  }],
  ['answer, all folds open', async (at) => {
    await unfold(at);
    await at.js('const s = document.querySelector(".if select"); s.value = "keep"; s.dispatchEvent(new Event("change", {bubbles: true}))');
    await at.$('.if table');
  }],
  ['papers', async (at) => {
    await at.go(4);
    await at.until('return document.querySelectorAll(".paper:not(:disabled)").length >= 6', 'six papers');
  }],
  ['papers, one open', async (at) => {
    await at.js('document.querySelector(".paper").click()');
    await at.$('.desk iframe');
  }],
  ['show', async (at) => {
    await at.press('Show');
    await at.shows('.show h1', /\S/);
  }],
  ...[2, 3, 4, 5, 6, 7].map((n) => [`show, thought ${n}`, async (at) => {
    await at.press('css:.show .next');
    if (n === 5) await at.press('See the price');
    await at.shows('.show footer', new RegExp(`${n} of`));
  }]),
  ['start', async (at) => {
    await at.press('css:.show .close');
    await at.press('css:.head button');
    await at.$('.jobs');
  }],
  ['start, a job deleted, folds open', async (at) => {
    await at.js('document.querySelector(".jobs li button:last-child").click()');
    await at.$('.start p[role=status]');
    await unfold(at);
  }],
];

async function unfold(at) {
  await at.js('for (const d of document.querySelectorAll("main details")) d.open = true');
  await at.js('for (const d of document.querySelectorAll("main details")) d.open = true'); /* folds within folds */
}

export function views(at) {
  test('every view at three sizes, light and dark: nothing overflows, thumbs fit, axe finds nothing, Tab reaches all and shows where it is', async (t) => {
    await at.size(SIZES[2]);
    await at.made('The whole example');
    const wrong = [];
    const each = async (name, to) => {
      const note = (found, where) => wrong.push(...found.map((f) => `${name}, ${where}: ${f}`));
      await to(at);
      await idle(at);
      for (const size of SIZES) {
        for (const theme of ['light', 'dark']) {
          await at.size(size, theme);
          note([...(await cramped(at.driver)), ...(await spill(at.driver)), ...(await faults(at.driver))], `${size} ${theme}`);
        }
        note(await unreached(at.driver), size);
      }
      await at.size(SIZES[2]);
    };
    for (const [name, to] of VIEWS) {
      const began = Date.now();
      await each(name, to).catch((why) => assert.deepEqual([...wrong, `${name}: ${why.message}`], []));
      t.diagnostic(`${name}: ${Date.now() - began} ms`);
    }
    assert.deepEqual(wrong, []);
    await at.press('Bring it back');
  });
}
