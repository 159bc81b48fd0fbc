// Jobs: what the program writes and reads is what the page holds, before and after a way through a .zip.
import assert from 'node:assert/strict';
import {mkdirSync} from 'node:fs';
import {test} from 'node:test';
import {gzipSync} from 'node:zlib';

import {jobsAmong} from '../../src/page/model/folder.js';
import {History} from '../../src/page/model/history.js';
import * as jobs from '../../src/page/model/job.js';
import {readZip, writeZip} from '../../src/page/model/zip.js';
import {engine, figures, folder, pythonUnzip, readAll, writeAll} from './program.mjs';

const text = (job, file) => Buffer.from(job.files.get(file)).toString();

test('starter and example are the files that `panewright new` writes', async (t) => {
  const run = engine(t), written = await run(['new', '/out/x'], new Map()), whole = await run(['new', '/out/x', '--example'], new Map());
  const started = await jobs.starter(run), example = await jobs.example(run);
  for (const file of jobs.FILES) {
    assert.deepEqual(started.files.get(file), written.files.get(`x/${file}`));
    assert.deepEqual(example.files.get(file), whole.files.get(`x/${file}`));
  }
  assert.deepEqual(started.files.get('openings.csv'), readAll('examples/starter').get('openings.csv'));
  assert.equal(jobs.openings(started).rows, 2);
  await assert.rejects(jobs.starter(async () => ({status: 1, err: 'no room\n', files: new Map()})), /^Error: no room$/);
});

/* Every job folder of the house, as a person has it on his disk: with what lies beside it. */
function folders() {
  const all = new Map([...readAll('examples'), ...[...readAll('tests/street')].map(([p, b]) => [`street/${p}`, b])]);
  return jobsAmong(all, 'top');
}

/* A year of hourly weather in the layout of TMY3: an overcast place without beam sun; invented. */
function weather() {
  const rows = [];
  for (let h = 0; h < 8760; h++) {
    const date = new Date(Date.UTC(1989, 0, 1, h)), day = date.toISOString();
    const sun = Math.round(Math.max(0, 300 * Math.sin((Math.PI * (h % 24 - 5.5)) / 13)));
    const warm = (12 - 14 * Math.cos((2 * Math.PI * h) / 8760) + 4 * Math.sin((Math.PI * (h % 24 - 8)) / 12)).toFixed(1);
    rows.push(`${day.slice(5, 7)}/${day.slice(8, 10)}/1989,${String((h % 24) + 1).padStart(2, '0')}:00,${sun},0,${sun},${warm},2.0,3.0,50,900,9,9`);
  }
  return gzipSync(`999999,"INVENTED",NM,-7,35.0,-106.6,1600\nDate (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),DNI (W/m^2),DHI (W/m^2),Dry-bulb (C),` +
    `Dew-point (C),Wspd (m/s),RHum (%),Pressure (mbar),TotCld (tenths),OpqCld (tenths)\n${rows.join('\n')}\n`);
}

/* A hand-written one: weather in a folder of its own, a price list and a firm file beside the job, notes, own columns, spreads, a
 * mark of order, an old spreadsheet's code page and line ends. */
async function byHand(run) {
  const job = await jobs.example(run, 'hand');
  const latin = (s) => Uint8Array.from(s, (c) => c.charCodeAt(0));
  const openings = text(job, 'openings.csv').replace(/^tag,/m, 'tag,note_dog,').replace(/^([A-Z]+\d+[a-z]?),/gm, '$1,br\xe9ve,');
  const house = text(job, 'job.csv').replace(/^climate,.*$/m, 'climate,weather/year.csv.gz,').replace(/^floor_area,[^,]*/m, 'floor_area,1480 ft2 +- 50');
  job.files.set('openings.csv', latin(openings.replaceAll('\n', '\r\n')));
  job.files.set('job.csv', new TextEncoder().encode(`\ufeff${house}prices_file,../shared/prices.csv,\nfirm_file,../shared/firm.csv,\nnote_key,pot ½,`));
  job.files.set('weather/year.csv.gz', new Uint8Array(weather()));
  job.files.set('../shared/prices.csv', latin('package,kind,per_opening,per_job,item,note_own\n,,$500,,,\n,,,$95,permit,x\n'));
  job.files.set('../shared/firm.csv', latin('item,value\nfirm,Crew Nine (fictional)\n'));
  return job;
}

test('every example, street job and a hand-written folder: the same bytes and figures after import and export', async (t) => {
  const before = folder(t), run = engine(t), list = [...folders(), await byHand(run)];
  assert.ok(list.length >= 16, String(list.length));
  assert.ok(list.find((j) => j.name === 'cinder_lane').files.has('../sections/old_jamb.csv'));
  const zips = list.map((job) => writeZip(readZip(writeZip(jobs.newJob(job.name, job.files)))));
  const after = pythonUnzip(t, zips);
  list.forEach((job, i) => {
    mkdirSync(`${before}/${i}/${job.name}`, {recursive: true});
    writeAll(`${before}/${i}/${job.name}`, job.files);
    assert.deepEqual(readAll(after[i]), readAll(`${before}/${i}`), job.name);
    const was = figures(`${before}/${i}`, job.name);
    assert.equal(figures(after[i], job.name), was, job.name);
    assert.match(was, /^[01]\n/, job.name);
    if (job.name === 'hand') for (const word of [/^0\n/, /windows-1252/, /INVENTED/, /permit/]) assert.match(was, word);
  });
});

test('an edit in the page is the same edit by hand', async (t) => {
  const run = engine(t), job = await jobs.example(run);
  const edited = jobs.setItem(jobs.setCell(job, 'openings.csv', 0, 'width_middle', '47 1/4'), 'heat_set', '66 F');
  const hand = new Map(job.files);
  const lines = text(job, 'openings.csv').split('\n'), at = lines.findIndex((l) => l.startsWith('tag,'));
  const cells = lines[at + 1].split(',');
  cells[lines[at].split(',').indexOf('width_middle')] = '47 1/4';
  lines[at + 1] = cells.join(',');
  hand.set('openings.csv', new Uint8Array(Buffer.from(lines.join('\n'))));
  hand.set('job.csv', new Uint8Array(Buffer.from(text(job, 'job.csv').replace(/^heat_set,[^,\n]*/m, 'heat_set,66 F'))));
  assert.deepEqual(edited.files, hand);
  const [a, b, c] = await Promise.all([edited.files, hand, job.files].map((files) => run(['compare', '/job', '--format', 'json'], files)));
  assert.equal(a.status, 0);
  assert.equal(a.out, b.out);
  assert.notEqual(a.out, c.out);
});

test('items: own names, dwellings, rows added at the end, notes kept', () => {
  const job = jobs.newJob('a', [['job.csv', new TextEncoder().encode('# top\nitem,value,note\nHeat Set,70 F,why\n# end')]]);
  assert.equal(jobs.itemText(job, 'heat_set'), '70 F');
  assert.equal(text(jobs.setItem(job, 'heat_set', '68 F'), 'job.csv'), '# top\nitem,value,note\nHeat Set,68 F,why\n# end');
  const more = jobs.setItem(job, 'cool_set', '76 F');
  assert.equal(text(more, 'job.csv'), '# top\nitem,value,note\nHeat Set,70 F,why\ncool_set,76 F,\n# end');
  assert.equal(jobs.setItem(job, 'cool_set', ''), job);
  const two = jobs.setItem(job, 'heat_set', '60 F', {dwelling: 'north'});
  assert.deepEqual([jobs.itemText(two, 'heat_set'), jobs.itemText(two, 'heat_set', {dwelling: 'North'}), jobs.itemText(two, 'heat_set', {dwelling: 'south'})],
    ['70 F', '60 F', '70 F']);
  assert.equal(jobs.itemText(jobs.setItem(two, 'heat_set', '71 F'), 'heat_set', {dwelling: 'north'}), '60 F');
  assert.deepEqual(jobs.items(two).map((i) => [i.item, i.value, i.dwelling]), [['Heat Set', '70 F', ''], ['heat_set', '60 F', 'north']]);
  assert.equal(jobs.freeName('elm', ['Elm', 'elm 2']), 'elm 3');
  const copy = jobs.copyOf(job, 'b');
  assert.notEqual(copy.id, job.id);
  assert.deepEqual(copy.files, job.files);
});

test('a row blanked while it is typed anew stays a row', () => {
  let job = jobs.newJob('a', [['openings.csv', new TextEncoder().encode('tag,room\n1,\n2,x\n')]]);
  job = jobs.setCell(job, 'openings.csv', 0, 'tag', '');
  assert.equal(jobs.openings(job).rows, 2);
  job = jobs.setCell(job, 'openings.csv', 0, 'tag', '7');
  assert.equal(text(job, 'openings.csv'), 'tag,room\n7,\n2,x\n');
  assert.equal(text(jobs.copyRow(job, 'openings.csv', 1, {tag: '3'}), 'openings.csv'), 'tag,room\n7,\n2,x\n3,x\n');
  assert.equal(jobs.setCell(job, 'openings.csv', 0, 'hinge', ''), job);
  assert.equal(text(jobs.setCell(job, 'openings.csv', 1, 'hinge', 'left'), 'openings.csv'), 'tag,room,hinge\n7,\n2,x,left\n');
});

test('undo: 200 deep, one step an edit, typing in one place is one edit', () => {
  const first = jobs.newJob('a', [['openings.csv', new TextEncoder().encode('tag,room\n1,\n')]]);
  const typed = (job, room) => jobs.setCell(job, 'openings.csv', 0, 'room', room);
  const h = new History(first);
  for (const room of ['K', 'Ki', 'Kit']) h.do(typed(h.job, room), 'openings.csv/0/room');
  h.seal();
  h.do(typed(h.job, 'Kitchen'), 'openings.csv/0/room');
  h.do(h.job, 'nothing');
  assert.equal(jobs.openings(h.undo()).cell(0, 'room'), 'Kit');
  assert.equal(h.undo(), first);
  assert.equal(h.undo(), first);
  assert.equal(h.canUndo, false);
  h.redo();
  assert.equal(jobs.openings(h.redo()).cell(0, 'room'), 'Kitchen');
  h.undo();
  h.do(typed(h.job, 'Bath'));
  assert.equal(h.canRedo, false);
  for (let i = 0; i < 500; i++) h.do(typed(h.job, `r${i}`));
  let steps = 0;
  for (; h.canUndo; steps++) h.undo();
  assert.equal(steps, 200);
  assert.equal(jobs.openings(h.job).cell(0, 'room'), 'r299');
  for (steps = 0; h.canRedo; steps++) h.redo();
  assert.deepEqual([steps, jobs.openings(h.job).cell(0, 'room')], [200, 'r499']);
});
