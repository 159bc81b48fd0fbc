// A newcomer makes a job by touching and by typing, at three sizes; what he sees is what the command says.
import assert from 'node:assert/strict';
import {test} from 'node:test';
import {SIZES} from './driver.mjs';
import {Key} from './hands.mjs';

const READINGS = ['47 1/2', '47 9/16', '47 1/2', '35 1/2', '35 1/2', '35 7/16', '59 5/16', '59 5/16'];
const NAMES = ['width at the bottom', 'width in the middle', 'width at the top', 'height at the left', 'height in the middle', 'height at the right', 'diagonal from the lower left',
  'diagonal from the upper left'];

const reading = (name) => `css:input.reading[aria-label="${name}"]`;

/* Three ways to put the readings in: thumbs alone; a finger for the place and keys for the figures; keys alone. */
const WAYS = [
  async (at) => {
    for (const text of READINGS) {
      const [whole, part] = text.split(' ');
      for (const k of [...whole, part, 'next']) await at.tap(k);
    }
  },
  async (at) => {
    for (const [i, text] of READINGS.entries()) {
      await at.tap(reading(NAMES[i]));
      await at.until('return document.activeElement === document.querySelector(arguments[0])', 'the reading that was tapped', reading(NAMES[i]).slice(4));
      await at.keys(text);
    }
  },
  async (at) => {
    await at.press(reading(NAMES[0]));
    await at.keys(...READINGS.flatMap((text) => [text, Key.ENTER]));
  },
];

/* range: the range is waited for, too. */
export function newcomer(at, {range = true} = {}) {
  const made = [];
  for (const [i, size] of SIZES.entries()) {
    test(`a newcomer makes a job at ${size.join(' x ')}, ${['by thumb', 'by finger and keys', 'by mouse and keys'][i]}`, async () => {
      const hit = i < 2 ? (what) => at.tap(what) : (what) => at.press(what);
      await at.size(size);
      const name = await at.made('New job', hit);
      await hit('Add an opening');
      await at.shows('.verdict', /not measured yet/);
      await WAYS[i](at);
      await at.shows('.verdict', /^Fits: order/);
      for (const [k, text] of READINGS.entries()) assert.equal(await at.value(reading(NAMES[k]).slice(4)), text, NAMES[k]);
      const said = JSON.parse(await at.native(name, ['fit', '--format', 'json'])).openings.at(-1).said;
      assert.equal((await at.text('.verdict p')).trim(), said.verdict);
      await hit('both cut');
      await at.until('return document.querySelector(".switch input[value=\\"2\\"]").checked', 'the switch');
      await hit('Answer');
      await at.shows('.answer .taken', /\S/);
      await at.native(name, ['sheet', '--no-range', '--language', 'en', '-o', `${at.temp}/sheet.html`]);
      const [shown, want] = await at.js(`const bare = (e) => e.textContent.replace(/\\s+/g, ' ').trim();
        return [bare(document.querySelector('.answer .taken')), bare(new DOMParser().parseFromString(arguments[0], 'text/html').querySelector('section.part'))]`, at.read('sheet.html'));
      assert.equal(shown, want);
      made.push({name, files: await at.files(name)});
    });
  }

  test('however it was put in, the same readings gave the same files', () => {
    assert.equal(made.length, SIZES.length);
    for (const {files} of made.slice(1)) assert.deepEqual(files, made[0].files);
  });

  test('a reading misread by ten inches is told at once; undo takes it back', async () => {
    const {name} = made.at(-1);
    await at.open(name);
    await at.size(SIZES[2]);
    await at.openOne('3');
    await at.retype(reading('width at the top'), '37 1/2');
    await at.shows('.verdict', /^Measure again/);
    const said = JSON.parse(await at.native(name, ['fit', '--format', 'json'])).openings.at(-1).said;
    assert.equal((await at.text('.verdict p')).trim(), said.verdict);
    await at.chord(Key.CONTROL, 'z');
    await at.shows('.verdict', /^Fits: order/);
    assert.equal(await at.value(reading('width at the top').slice(4)), '47 1/2');
  });

  test('the figures beside a package are those of the command, and a word that is tapped changes them', async () => {
    const name = await at.made('The whole example');
    await at.go(2);
    const cell = (row, i) => at.js('return document.querySelectorAll(".figures")[arguments[0]]?.querySelectorAll("dd")[arguments[1]]?.textContent', row, i);
    await at.wait(() => cell(2, 0), 'figures');
    const native = async () => JSON.parse(await at.native(name, ['compare', '--format', 'json'])).said.house.packages;
    const want = await native();
    for (const [row, p] of want.entries()) {
      assert.equal(await cell(row, 0), `${p.u_w_m2k} Btu/h-ft2-F`);
      assert.deepEqual([await cell(row, 1), await cell(row, 2), await cell(row, 6)], [p.shgc, p.vt, p.price]);
    }
    await at.press('argon 90%');
    await at.press('krypton 90%');
    await at.wait(async () => (await cell(1, 0)) !== `${want[1].u_w_m2k} Btu/h-ft2-F`, 'figures');
    assert.equal(await cell(1, 0), `${(await native())[1].u_w_m2k} Btu/h-ft2-F`);
    await at.chord(Key.CONTROL, 'z');
  });

  test('the answer is the sheet; its range comes from behind and can be cancelled', async () => {
    await at.made('New job');
    await at.go(3);
    await at.shows('.answer .taken', /The question and the answer/);
    await at.shows('.sure', /Computing the range/);
    await at.press('Cancel');
    await at.shows('.sure', /Compute the range/);
    if (!range) return;
    await at.press('Compute the range');
    await at.shows('.sure', /With ranges of 8 in 10/, 120_000);
    assert.match(await at.text('.answer .taken table.bands'), /\$\d+ to \$\d+/);
  });
}
