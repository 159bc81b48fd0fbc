// What the views do to texts, without a browser.
import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import {mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync, existsSync} from 'node:fs';
import {test} from 'node:test';
import {Table} from '../../src/page/model/table.js';
import {partsOf, textOfParts} from '../../src/page/view/glass_words.js';
import {pressed} from '../../src/page/view/keys.js';
import {allWords} from '../../src/page/view/words.js';

const program = process.env.PANEWRIGHT ?? 'build/panewright';
const typed = (keys) => keys.reduce((text, key, i) => pressed(text, key, i === 0), 'what stood there');

test('keys write what the tape reads', () => {
  assert.equal(typed(['4', '7', '1/2']), '47 1/2');
  assert.equal(typed(['4', '7', '1/2', '9/16']), '47 9/16'); /* another fraction takes the place of the first */
  assert.equal(typed(['4', 'ft', '1', '1', '3/8']), "4'-11 3/8");
  assert.equal(typed(['6', '0', '2', 'mm']), '602 mm');
  assert.equal(typed(['6', 'mm', '0', '2']), '602 mm');
  assert.equal(typed(['4', '7', '1/2', 'back']), '47');
  assert.equal(typed(['4', '7', '1/2', 'back', 'back']), '4');
  assert.equal(typed(['back']), '');
});

test('the program reads every length that keys write', () => {
  const folder = mkdtempSync('/tmp/panewright-keys-');
  for (const f of ['job.csv', 'packages.csv']) writeFileSync(`${folder}/${f}`, readFileSync(`examples/starter/${f}`));
  const openings = Table.read(readFileSync('examples/starter/openings.csv'));
  const fit = (text) => {
    writeFileSync(`${folder}/openings.csv`, openings.with(0, 'width_bottom', text).bytes());
    return JSON.parse(execFileSync(program, ['fit', folder, '--format', 'json'])).openings[0].width_min_m;
  };
  const inch = 0.0254; /* m, by definition (international yard and pound agreement, 1959) */
  try {
    for (const [keys, inches] of [[['7', '1', '7/16'], 71 + 7 / 16], [['5', 'ft', '1', '1', '3/8'], 71 + 3 / 8], [['7', '1', '15/16', 'back'], 71], [['1', '8', '1', '3', 'mm'], 1813 / 25.4]])
      assert.ok(Math.abs(fit(typed(keys)) - inches * inch) < 1e-9, typed(keys));
  } finally {
    rmSync(folder, {recursive: true});
  }
});

test('a build-up cut into words and put together again is the same text', () => {
  let n = 0;
  for (const name of readdirSync('examples')) {
    const file = `examples/${name}/packages.csv`;
    if (!existsSync(file)) continue;
    const t = Table.read(readFileSync(file));
    for (let row = 0; row < t.rows; row++) {
      const text = t.cell(row, 'glass'), parts = partsOf(text);
      if (parts) assert.equal(textOfParts(parts), text, file);
      if (parts) n++;
    }
  }
  assert.ok(n >= 6, `only ${n} build-ups were cut`);
  assert.equal(partsOf('mine.csv / 1/2 in air'), null);
  assert.equal(partsOf('<b>'), null);
});

test('every word has both tongues and as many places in each', () => {
  for (const [key, words] of Object.entries(allWords)) {
    assert.equal(words.length, 2, key);
    for (const w of words) assert.ok(w.trim(), key);
    assert.equal(words[0].split('%s').length, words[1].split('%s').length, key);
  }
});

test('every word that the program offers for a cell has a name in both tongues', () => {
  const told = JSON.parse(execFileSync(program, ['words', '--format', 'json'], {maxBuffer: 1 << 26}));
  const words = new Set(told.files.flatMap((f) => f.fields).flatMap((f) => f.words).map((w) => w.word)), parts = new Set(told.files.flatMap((f) => f.fields).map((f) => f.part));
  assert.ok(words.size > 100 && parts.size > 20);
  assert.deepEqual([...words].filter((w) => !/^\d+$/.test(w) && !Object.hasOwn(allWords, w)), []);
  assert.deepEqual([...parts].filter((p) => !Object.hasOwn(allWords, `part ${p}`)), []);
});
