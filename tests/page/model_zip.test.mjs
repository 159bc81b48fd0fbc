// .zip files in and out. What is written is read by Python's zipfile; hostile ones are made by it or by hand.
import assert from 'node:assert/strict';
import {test} from 'node:test';

import {readFolder, writeFolder, readFileList, jobsAmong, folderName} from '../../src/page/model/folder.js';
import {newJob} from '../../src/page/model/job.js';
import {crc32, readZip, readZipAll, writeZip} from '../../src/page/model/zip.js';
import {cost, pythonUnzip, pythonZips, readAll} from './program.mjs';
import {random} from './random.mjs';

const utf8 = (text) => new TextEncoder().encode(text);
const ITEMS = 'item,value\njob,A\n';
const pythonZip = (code) => pythonZips([code])[0];
const FULL = `z.writestr('a/job.csv', 'item,value\\n')\n`;

test('CRC-32 of "123456789" is CBF43926 (the check value of ISO 3309 that every list of CRCs gives)', () => {
  assert.equal(crc32(utf8('123456789')), 0xCBF43926);
});

test('any job goes out and comes back the same, and the same job gives the same bytes', (t) => {
  const r = random(7), shown = [];
  for (let i = 0; i < 60; i++) {
    const files = new Map([['job.csv', utf8(ITEMS)]]);
    for (let n = r.below(6); n > 0; n--) {
      const bytes = Uint8Array.from({length: r.below(5000)}, () => (r.chance(0.5) ? 65 : r.below(256)));
      files.set(r.one(['openings.csv', 'notes/a b.txt', 'wetter/münchen.epw', '#1.csv', 'packages.csv']), bytes);
    }
    const job = newJob(r.one(['Harrow Bend', '12/3 "x"', 'ñandú', 'con']), files);
    const zip = writeZip(job), back = readZip(zip);
    assert.equal(back.name, folderName(job.name));
    assert.deepEqual(new Map([...back.files].sort()), new Map([...files].sort()));
    const turned = {...job, id: 'other', files: new Map([...files].reverse())};
    assert.deepEqual(writeZip(turned), zip);
    shown.push({zip, name: folderName(job.name), files: new Map([...files].sort())});
  }
  pythonUnzip(t, shown.map((s) => s.zip)).forEach((dir, i) => assert.deepEqual(readAll(`${dir}/${shown[i].name}`), shown[i].files));
});

test('a .zip of another writer: a folder or none, stored or deflated, litter left out', () => {
  const python = pythonZip(`
z.writestr('job.csv', 'item,value\\n', zipfile.ZIP_STORED)
z.writestr('weather/', '')
z.writestr('weather/x.epw', 'LOCATION' * 1000)
z.writestr('__MACOSX/._job.csv', 'x')
z.writestr('.DS_Store', 'x')`);
  const job = readZip(python, 'Elm 4.zip');
  assert.equal(job.name, 'Elm 4');
  assert.deepEqual([...job.files.keys()], ['job.csv', 'weather/x.epw']);
  const two = pythonZip(`${FULL}z.writestr('b/job.csv', 'x')\nz.writestr('b/old/job.csv', 'y')\nz.writestr('c.txt', 'x')`);
  assert.throws(() => readZip(two), /it holds 2 jobs/);
  assert.deepEqual(readZipAll(two).map((j) => [j.name, [...j.files.keys()], j.left]), [
    ['a', ['job.csv'], ['c.txt']], ['b', ['job.csv', 'old/job.csv'], ['c.txt']]]);
});

test('files beside the job come along where its cells name them', (t) => {
  const zip = pythonZip(`
z.writestr('work/elm/job.csv', 'item,value\\nprices_file,../shared/prices.csv\\nfirm_file,../../firm.csv\\nnote,../gone.csv\\n')
z.writestr('work/shared/prices.csv', 'package,per_opening\\n')
z.writestr('work/shared/other.csv', 'x')
z.writestr('firm.csv', 'item,value\\n')`);
  const job = readZip(zip);
  assert.deepEqual([...job.files.keys()], ['job.csv', '../shared/prices.csv', '../../firm.csv']);
  assert.deepEqual(job.left, ['work/shared/other.csv']);
  const out = readAll(pythonUnzip(t, [writeZip(job)])[0]);
  assert.deepEqual([...out.keys()], ['firm.csv', 'jobs/elm/job.csv', 'jobs/shared/prices.csv']);
  assert.deepEqual(readZip(writeZip(job)).files, job.files);
});

/* What Python makes of it, and the one line that says no. */
const HOSTILE = {
  'steps out': [`z.writestr('a/../../job.csv', 'x')`, /leads out of the folder/],
  'steps out by \\': [`z.writestr('a\\\\..\\\\..\\\\job.csv', 'x')`, /leads out of the folder/],
  'absolute': [`z.writestr('x', 'y')\nz.filelist[0].filename = '/etc/job.csv'`, /absolute|two names/],
  'a drive': [`z.writestr('C:/job.csv', 'x')`, /absolute/],
  'a folder that steps out': [`${FULL}z.writestr('../', '')`, /leads out of the folder/],
  'a link': [`i = zipfile.ZipInfo('a/job.csv')\ni.create_system = 3\ni.external_attr = 0o120777 << 16\nz.writestr(i, '/etc/passwd')`, /is a link/],
  'a link to a folder': [`i = zipfile.ZipInfo('a/')\ni.create_system = 3\ni.external_attr = 0o120777 << 16\nz.writestr(i, '/etc')`, /is a link/],
  'a device': [`i = zipfile.ZipInfo('a/job.csv')\ni.create_system = 3\ni.external_attr = 0o020666 << 16\nz.writestr(i, '')`, /no regular file/],
  'a name twice': [`${FULL}z.writestr('a/job.csv', 'y')`, /twice/],
  'a name twice in other letters': [`${FULL}z.writestr('a/Job.csv', 'y')`, /twice/],
  'a file that is a folder': [`${FULL}z.writestr('a/x', 'y')\nz.writestr('a/x/y', 'z')`, /a file and a folder at once/],
  '3000 files': [`for i in range(3000): z.writestr(f'a/{i}', '')`, /more than 1000 files/],
  '1500 files': [`for i in range(1500): z.writestr(f'a/{i}', '')`, /more than 1000 files/],
  'a bomb': [`${FULL}z.writestr('a/big', bytes(60 << 20))`, /more than 50 MB/],
  'a bomb of many': [`${FULL}\nfor i in range(900): z.writestr(f'a/{i}', bytes(1 << 16))`, /more than 50 MB/],
  'other packing': [`z.writestr('a/job.csv', 'x' * 100, zipfile.ZIP_LZMA)`, /packed by method 14/],
  'a control character': [`z.writestr('a/job\\x07.csv', 'x')`, /control character/],
  'no job': [`z.writestr('a/readme.txt', 'x')`, /holds no job.csv/],
  'nothing': ['', /holds no job.csv/],
};

const zips = pythonZips(Object.values(HOSTILE).map(([code]) => code));
Object.entries(HOSTILE).forEach(([name, [, line]], i) =>
  test(`refused: ${name}`, () => {
    const no = () => assert.throws(() => readZip(zips[i]), (why) => line.test(why.message) && !why.message.includes('\n') && why.message.length < 160);
    assert.ok(cost(no) < 500);
  }));

const view = (b) => new DataView(b.buffer, b.byteOffset, b.byteLength);
const find = (b, word) => {
  for (let at = 0; at < b.length - 4; at++) if (view(b).getUint32(at, true) === word) return at;
  return -1;
};

test('refused: bytes that were changed on the way', () => {
  const job = newJob('a', new Map([['job.csv', utf8(ITEMS.repeat(50))], ['openings.csv', utf8('tag\n1\n2\n'.repeat(90))]]));
  const zip = writeZip(job);
  let said = 0;
  for (let at = 0; at < zip.length; at++) {
    const b = zip.slice();
    b[at] ^= 0x55;
    try {
      const back = readZip(b);
      /* what no checksum guards: dates, versions, attributes, a folder's name that both lists spell alike */
      assert.deepEqual(back.files, job.files);
    } catch (why) {
      assert.ok(!(why instanceof RangeError || why instanceof TypeError), `${at}: ${why.stack}`);
      assert.ok(!why.message.includes('\n'));
      said++;
    }
  }
  assert.ok(said > zip.length / 2, `${said} of ${zip.length}`);
  for (let n = 0; n < zip.length; n++) assert.throws(() => readZip(zip.slice(0, n)), /torn/);
});

test('refused: a wrong checksum, a bomb that lies about its size, two names, files over each other, a password', () => {
  const at = (b, word, k) => find(b, word) + k;
  const zip = pythonZip(FULL), crc = zip.slice();
  view(crc).setUint32(at(crc, 0x02014B50, 16), 1, true);
  assert.throws(() => readZip(crc), /checksum is wrong/);
  const lies = pythonZip(`z.writestr('a/job.csv', bytes(200 << 20))`);
  view(lies).setUint32(at(lies, 0x02014B50, 24), 1000, true);
  const before = process.memoryUsage().arrayBuffers;
  assert.ok(cost(() => assert.throws(() => readZip(lies), /more than it says/)) < 300);
  assert.ok(process.memoryUsage().arrayBuffers - before < 40 << 20);
  const names = zip.slice();
  names[30] = 98;
  assert.throws(() => readZip(names), /two names/);
  const secret = zip.slice();
  view(secret).setUint16(at(secret, 0x02014B50, 8), 1, true);
  assert.throws(() => readZip(secret), /encrypted/);
  const over = pythonZip(`z.writestr('a/job.csv', 'x' * 9)\nz.writestr('b/job.csv', 'x' * 9)`);
  const second = over.slice(find(over, 0x02014B50));
  const k = find(over, 0x02014B50) + 4 + find(second.slice(4), 0x02014B50);
  over.set(over.slice(0, 39), view(over).getUint32(k + 42, true));
  view(over).setUint32(k + 42, 0, true);
  over[k + 46] = 97;
  assert.throws(() => readZip(over), /twice|over each other/);
});

test('refused: a million entries, soon', () => {
  const n = 1e6, b = new Uint8Array(n * 46 + 22), v = view(b);
  for (let i = 0; i < n; i++) v.setUint32(i * 46, 0x02014B50, true);
  v.setUint32(n * 46, 0x06054B50, true);
  v.setUint16(n * 46 + 8, n & 0xFFFF, true);
  v.setUint16(n * 46 + 10, n & 0xFFFF, true);
  v.setUint32(n * 46 + 12, n * 46, true);
  assert.ok(cost(() => assert.throws(() => readZip(b), /more than 1000 files/)) < 100);
  assert.throws(() => readZip(new Uint8Array(65 << 20)), /larger than 64 MB/);
});

/* A folder of the device as showDirectoryPicker gives it, in memory. */
function device(name, tree = {}) {
  const entry = (k) => (tree[k] instanceof Uint8Array ? {kind: 'file', getFile: async () => new Blob([tree[k]]),
    createWritable: async () => ({write: async (b) => { tree[k] = Uint8Array.from(b); }, close: async () => {}})} : device(k, tree[k]));
  return {kind: 'directory', name, tree,
    async *entries() { for (const k of Object.keys(tree)) yield [k, entry(k)]; },
    async getDirectoryHandle(k) { tree[k] ??= {}; return device(k, tree[k]); },
    async getFileHandle(k) { tree[k] ??= new Uint8Array(0); return entry(k); }};
}

test('a folder of the device: in, and out without writing over anything', async () => {
  const b = utf8(ITEMS), prices = utf8('package\n');
  const [job] = await readFolder(device('elm', {'job.csv': b, weather: {'x.epw': prices}}));
  assert.deepEqual([job.name, [...job.files.keys()]], ['elm', ['job.csv', 'weather/x.epw']]);
  const shelf = device('jobs', {elm: {'job.csv': utf8('other')}});
  assert.equal(await writeFolder(shelf, newJob('elm', job.files)), 'elm 2');
  assert.deepEqual(shelf.tree, {elm: {'job.csv': utf8('other')}, 'elm 2': {'job.csv': b, weather: {'x.epw': prices}}});
  const beside = newJob('elm', [['job.csv', utf8('item,value\nprices_file,../p.csv\n')], ['../p.csv', prices]]);
  assert.equal(await writeFolder(shelf, beside), 'elm 3');
  assert.deepEqual(shelf.tree['elm 3'], {elm: {'job.csv': beside.files.get('job.csv')}, 'p.csv': prices});
  const list = (names) => names.map((n) => Object.assign(new Blob([b]), {name: n, webkitRelativePath: n}));
  assert.deepEqual((await readFileList(list(['elm/job.csv', 'elm/.DS_Store']))).map((j) => j.name), ['elm']);
  await assert.rejects(readFileList(list(Array.from({length: 1001}, (_, i) => `elm/${i}`))), /more than 1000 files/);
  await assert.rejects(readFileList([{name: 'x', webkitRelativePath: 'elm/x', size: 51 << 20}]), /more than 50 MB/);
  assert.throws(() => jobsAmong(new Map([['a/x.csv', b]])), /no job.csv/);
});
