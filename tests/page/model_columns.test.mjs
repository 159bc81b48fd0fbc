// Columns and items as the program tells them, held against what the program reads.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {test} from 'node:test';

import {readColumns} from '../../src/page/model/columns.js';
import * as jobs from '../../src/page/model/job.js';
import {Table} from '../../src/page/model/table.js';
import {engine, readAll} from './program.mjs';

test('every column of the examples is known but for the user\'s own', async (t) => {
  const columns = await readColumns(engine(t));
  assert.deepEqual(columns.files.slice(0, 3), ['job.csv', 'openings.csv', 'packages.csv']);
  let seen = 0;
  for (const dir of ['examples', 'tests/street'])
    for (const [path, bytes] of readAll(dir)) {
      const file = path.split('/').at(-1);
      if (!columns.files.includes(file)) continue;
      seen++;
      assert.deepEqual(columns.own(file, Table.read(bytes)).filter((name) => !/^(item|note)/.test(name)), [], path);
    }
  assert.ok(seen > 40, String(seen));
});

test('the program takes every column that is told, and says of one that is not', async (t) => {
  const run = engine(t), columns = await readColumns(run);
  let job = await jobs.starter(run);
  for (const {name} of columns.of('openings.csv')) job = jobs.setCell(job, 'openings.csv', 0, name, jobs.openings(job).cell(0, name) || ' ');
  for (const {name} of columns.of('job.csv')) if (!jobs.itemText(job, name)) job = jobs.setItem(job, name, ' ');
  assert.ok(columns.of('openings.csv').every(({name}) => jobs.openings(job).column(name) >= 0));
  const good = await run(['fit', '/job'], job.files);
  assert.deepEqual([good.status, /not known/.test(good.err)], [0, false], good.err);
  const odd = await run(['fit', '/job'], jobs.setCell(job, 'openings.csv', 0, 'dog', 'yes').files);
  assert.match(odd.err, /column 'dog' is not known/);
  const own = jobs.openings(jobs.setCell(job, 'openings.csv', 0, 'note_dog', 'yes'));
  assert.deepEqual(columns.own('openings.csv', own), ['note_dog']);
});

test('words, parts, ranges', async (t) => {
  const columns = await readColumns(engine(t));
  assert.equal(columns.word('openings.csv', 'Operator', 'HS'), 'slider');
  assert.equal(columns.word('openings.csv', 'operator', 'porthole'), 'porthole');
  assert.deepEqual(columns.parts('openings.csv').find((p) => p.part === 'measures').fields.map((f) => f.name), ['width_bottom', 'width_middle',
    'width_top', 'height_left', 'height_middle', 'height_right', 'diagonal_1', 'diagonal_2']);
  const width = columns.field('openings.csv', 'width_top');
  assert.ok(Math.abs(width.low / 0.0254 - 4) < 1e-9 && Math.abs(width.high / 0.3048 - 20) < 1e-9); /* 4 in to 20 ft, as the program refuses */
  assert.equal(columns.field('job.csv', 'heat_set').blank, '69.6 F');
  assert.equal(columns.field('job.csv', 'dog'), undefined);
});

test('the model holds no list of columns and items of its own', () => {
  const copied = /width_bottom|heating_efficiency|label_shgc|sill_lip/;
  for (const [path, bytes] of readAll('src/page/model')) assert.doesNotMatch(String(Buffer.from(bytes)), copied, path);
  assert.match(readFileSync('src/job/openings.c', 'utf8'), copied);
});
