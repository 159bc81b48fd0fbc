// Every place worked by the keyboard alone: Tab, Enter, blank, arrows, Escape and letters; no finger, no mouse.
import assert from 'node:assert/strict';
import {test} from 'node:test';
import {SIZES} from './driver.mjs';
import {Key} from './hands.mjs';

const SPACE = ' ';

export function keyboard(at) {
  const enter = async (name) => {
    await at.tabTo(name);
    await at.keys(Key.ENTER);
  };
  const focus = () => at.js('const e = document.activeElement; return e === document.body ? "nothing" : e.outerHTML.slice(0, 120)');

  test('by keys alone: a job is made and named, an opening added, measured and its cuts set', async () => {
    await at.fresh();
    await at.size(SIZES[2]);
    await enter('New job');
    await at.$('.strip .one');
    await enter('Add an opening');
    await at.$('.board');
    await at.tabTo('width at the bottom');
    for (const text of ['47 1/2', '47 1/2', '47 1/2', '35 1/2', '35 1/2', '35 1/2', '59 5/16', '59 5/16']) await at.keys(text, Key.ENTER);
    await at.shows('.verdict', /^Fits: order/);
    await at.tabTo('css:input[name^=fins_cut]');
    await at.keys(Key.ARROW_RIGHT);
    await at.tabTo('Safety');
    await at.keys(SPACE);
    await at.tabTo('css:details[open] .fields select');
    await enter('Copy this opening');
    await at.shows('.which', /4\/4/);
    await enter('Remove this opening');
    await at.until('return document.querySelectorAll(".strip .one").length === 3', 'three openings');
    await at.tabTo('name of the job');
    await at.chord(Key.CONTROL, 'a');
    await at.keys('Keys alone');
    await at.shows('.head h1', /^Keys alone$/);
  });

  test('by keys alone: Glass, Answer, Papers, Show and back', async () => {
    await enter('Glass');
    await at.$('.figures dd:not(:empty)');
    const words = await at.js('return [...document.querySelectorAll(".sentence button.word")].map((b) => b.textContent)');
    const gas = words.find((w) => /argon|air/.test(w));
    await at.tabTo(gas);
    await at.keys(Key.ENTER);
    await at.$('.choice');
    await enter('krypton 90%');
    await at.until('return [...document.querySelectorAll(".word")].some((b) => b.textContent === "krypton 90%")', 'the other gas');
    await at.keys(Key.ESCAPE);
    assert.equal(await at.js('return document.querySelector(".choice")'), null);
    assert.match(await focus(), /class="word"/, 'the focus goes back to the word');
    await at.chord(Key.CONTROL, 'z');
    await at.until('return ![...document.querySelectorAll(".word")].some((b) => b.textContent === "krypton 90%")', 'undo');

    await enter('Answer');
    await at.shows('.answer .taken', /\S/);
    await enter('What if');
    await at.tabTo('css:.if select');
    await at.keys(Key.ARROW_DOWN);
    await at.shows('.if table', /if so/);
    await enter('Drop it');
    await enter('heat leak U');
    await at.shows('.why pre', /W\/m2|Btu/);

    await enter('Papers');
    await at.until('return document.querySelector(".paper:not(:disabled)")', 'a paper');
    await enter('Measuring form');
    await at.$('.desk iframe');
    await at.tabTo('css:.desk button.strong');
    await at.tabTo('css:iframe');

    await at.tabTo('Show', Key.TAB);
    await at.keys(Key.ENTER);
    await at.shows('.show h1', /\S/);
    await at.keys(Key.ARROW_RIGHT);
    await at.shows('.show footer', /2 of/);
    await at.keys(Key.ARROW_LEFT);
    await at.shows('.show footer', /1 of/);
    await at.tabTo('next');
    await at.keys(Key.ENTER);
    await at.shows('.show footer', /2 of/);
    await at.keys(Key.ESCAPE);
    await at.$('nav');
    await at.wait(async () => /Show/.test(await focus()), 'the focus to go back to Show');
  });

  test('by keys alone: a job is copied, deleted and brought back', async () => {
    await enter('Jobs');
    await at.$('.jobs');
    const jobs = async () => (await at.js('return [...document.querySelectorAll(".jobs .job b")].map((b) => b.textContent)')).sort();
    const before = await jobs();
    await enter(`Copy: ${before[0]}`);
    await at.until('return document.querySelectorAll(".jobs .job").length === arguments[0]', 'the copy', before.length + 1);
    await enter(`Delete: ${before[0]}, copy`);
    await enter('Bring it back');
    await at.until('return document.querySelectorAll(".jobs .job").length === arguments[0]', 'the copy again', before.length + 1);
    await enter(`Delete: ${before[0]}, copy`);
    await at.until('return document.querySelectorAll(".jobs .job").length === arguments[0]', 'the copy gone', before.length);
    assert.deepEqual(await jobs(), before);
  });
}
