// Files of rows beside the three of a job (labels, prices, bills, the firm): made, typed in, taken in, and every byte that
// nobody touched kept. What is made is read by the program.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {test} from 'node:test';

import {readColumns} from '../../src/page/model/columns.js';
import * as jobs from '../../src/page/model/job.js';
import {engine} from './program.mjs';

const bytes = (text) => new TextEncoder().encode(text);
const text = (job, file) => Buffer.from(job.files.get(file)).toString();

test('an edit in labels, prices and bills changes its cell and no other byte', () => {
  /* a spreadsheet's mark and line ends, notes, quotes, a column of the user's own, a row cut short */
  const files = {
    'prices.csv': '\ufeff# spring list\r\npackage,kind,size_from,per_opening,note_own\r\ngood, slider ,"60 in","$455",a\r\n,,,$12\r\n# end\r\n',
    'labels.csv': 'package;x,kind\n"a ""b""",slider\n\n  best ,\n',
    'bills.csv': '# of 2021\nfuel,from,to,amount,unit\ngas,2021-02-09,2021-03-10,"55.8",therm\ngas,2021-03-10,2021-04-12,35.5,therm',
  };
  let n = 0;
  for (const [file, before] of Object.entries(files)) {
    const job = jobs.newJob('a', [[file, bytes(before)]]), t = jobs.table(job, file);
    for (let row = 0; row < t.rows; row++)
      for (const [column, name] of t.head.entries()) {
        const typed = jobs.setCell(job, file, row, name, 'zz9'), back = jobs.setCell(typed, file, row, name, t.cell(row, column));
        assert.equal(jobs.table(typed, file).cell(row, column), 'zz9');
        assert.equal(text(job, file), before);
        const lines = before.split('\n'), now = text(typed, file).split('\n'), at = t.line(row) - 1;
        assert.deepEqual(now.toSpliced(at, 1), lines.toSpliced(at, 1), `${file} ${row} ${name}`);
        assert.notEqual(now[at], lines[at]);
        if (jobs.table(back, file).head.length === t.head.length && column < lines[at].split(',').length) assert.equal(text(back, file), before, `${file} ${row} ${name}`);
        n++;
      }
    const grown = jobs.addRow(job, file, t.rows - 1, {}), shrunk = jobs.removeRow(grown, file, t.rows);
    assert.equal(jobs.table(grown, file).rows, t.rows + 1);
    assert.equal(text(shrunk, file).replace(/\r?\n$/, ''), before.replace(/\r?\n$/, ''), file);
  }
  assert.equal(n, 24);
});

test('lists made from nothing in the page are read by the program, and move the price and the code', async (t) => {
  const run = engine(t), columns = await readColumns(run), example = await jobs.example(run);
  const said = async (job) => {
    const told = await run(['compare', '/job', '--format', 'json'], job.files);
    assert.equal(told.status, 0, told.err);
    return JSON.parse(told.out).said;
  };
  const names = (file) => columns.of(file).map((f) => f.name);
  let job = jobs.withHead(example, 'prices.csv', names('prices.csv'));
  assert.equal(text(job, 'prices.csv'), 'package,kind,size_from,size_to,per_opening,per_area,per_job,item\n');
  assert.equal(jobs.withHead(job, 'prices.csv', ['other']), job);
  job = jobs.addRow(job, 'prices.csv', -1, {});
  for (const [name, cell] of [['per_opening', '$500']]) job = jobs.setCell(job, 'prices.csv', 0, name, cell);
  assert.equal(text(job, 'prices.csv'), 'package,kind,size_from,size_to,per_opening,per_area,per_job,item\n,,,,$500,,,\n');
  const windows = Array.from({length: jobs.openings(job).rows}, (_, r) => Number(jobs.openings(job).cell(r, 'quantity') || 1)).reduce((a, b) => a + b);
  assert.equal((await said(job)).house.packages[0].price, `$${(500 * windows).toLocaleString('en')}`); /* 12 windows of $500 */
  job = jobs.addRow(job, 'prices.csv', 0, {per_job: '$95', item: 'permit'});
  assert.equal((await said(job)).house.packages[0].price, `$${(500 * windows + 95).toLocaleString('en')}`);
  const before = (await said(job)).code.packages[0];
  job = jobs.addRow(jobs.withHead(job, 'labels.csv', names('labels.csv')), 'labels.csv', -1, {package: 'good', u: '0.27', shgc: '0.30'});
  assert.match(before, /label missing/);
  assert.doesNotMatch((await said(job)).code.packages[0], /label missing/);
});

test('a utility\'s feed becomes rows of bills.csv, below those that are there', async (t) => {
  const run = engine(t), columns = await readColumns(run), feed = new Uint8Array(readFileSync('reference/checks/bills/espi_gas_monthly.xml'));
  const listed = await run(['bills', '/job/feed.xml', '--list'], new Map([['feed.xml', feed]]));
  assert.equal(listed.status, 0, listed.err);
  const job = jobs.addRows(await jobs.starter(run), 'bills.csv', bytes(listed.out)), t1 = jobs.table(job, 'bills.csv');
  assert.deepEqual(columns.own('bills.csv', t1), []);
  assert.equal(text(job, 'bills.csv'), listed.out);
  const again = await run(['bills', '/job/bills.csv', '--list'], job.files);
  assert.equal(again.out, listed.out);
  const mine = jobs.newJob('a', [['bills.csv', bytes('# mine\nto,from,note,fuel,amount\n2019-02-01,2019-01-01,cold,gas,70\n')]]);
  const both = jobs.addRows(mine, 'bills.csv', bytes(listed.out)), t2 = jobs.table(both, 'bills.csv');
  assert.equal(t2.rows, 1 + t1.rows);
  assert.ok(text(both, 'bills.csv').startsWith('# mine\nto,from,note,fuel,amount,'));
  for (let r = 0; r < t1.rows; r++) for (const name of ['fuel', 'from', 'to', 'amount', 'unit']) assert.equal(t2.cell(r + 1, name), t1.cell(r, name));
  assert.equal(t2.cell(0, 'note'), 'cold');
});

test('items of firm.csv stand in their own file; job.csv stays as it was', async (t) => {
  const run = engine(t), job = await jobs.starter(run);
  const named = jobs.setItem(job, 'firm', 'Crew Nine, (fictional)', {file: 'firm.csv'});
  assert.equal(text(named, 'firm.csv'), 'item,value\nfirm,"Crew Nine, (fictional)"\n');
  assert.equal(named.files.get('job.csv'), job.files.get('job.csv'));
  assert.equal(jobs.itemText(named, 'firm', {file: 'firm.csv'}), 'Crew Nine, (fictional)');
  assert.equal(jobs.itemText(named, 'firm'), '');
  const phone = jobs.setItem(named, 'phone', '1', {file: 'firm.csv'});
  assert.equal(text(phone, 'firm.csv'), `${text(named, 'firm.csv')}phone,1\n`);
  assert.equal(jobs.withoutFile(phone, 'firm.csv').files.size, job.files.size);
  assert.equal(jobs.withoutFile(job, 'nothing.csv'), job);
  const paper = await run(['papers', '/job', '--output', '/out/p', '--only', 'measure', '--html-only'], phone.files);
  assert.equal(paper.status, 0, paper.err);
  assert.match(Buffer.from([...paper.files.values()][0]).toString(), /Crew Nine, \(fictional\)/);
});
