// Job folders in and out: byte for byte, with the figures of the command, and nothing hostile gets further than one line.
import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import {mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync} from 'node:fs';
import {test} from 'node:test';
import {By, SIZES} from './driver.mjs';
import {pythonZips, readAll, writeAll} from './program.mjs';

const EXAMPLE = 'examples/harrow_bend';
const text = (bytes) => Buffer.from(bytes).toString();

/* A folder as a person types one: a mark at its start, line ends of two kinds, comments, blank lines, columns of his own, quotes
 * where none are asked for, spreads, lengths in five spellings, rows in his own order, files that no one reads. */
function byHand() {
  const files = new Map([...readAll(EXAMPLE)].filter(([name]) => /^(job|openings|packages)\.csv$/.test(name)));
  const openings = text(files.get('openings.csv')).trimEnd().split('\n'), head = openings.findIndex((l) => !l.startsWith('#'));
  const own = openings.map((line, i) => (line.startsWith('#') || i < head ? line : i === head ? `${line}, neighbour's dog` : `${line},"barks, ""often"""`));
  const rows = own.slice(head + 1);
  files.set('openings.csv', Buffer.from(['\ufeff# read on a wet day', '', ...own.slice(0, head), own[head], rows[2], '# the hard one', ...rows.slice(0, 2), '', ...rows.slice(3).reverse()].join('\r\n')));
  files.set('job.csv', Buffer.from(`${text(files.get('job.csv')).replace('bill_year,$1640,', 'bill_year , $1640 , ')}\n# asked again at the door\n\n`));
  files.set('notes/on the way.txt', Buffer.from('two dogs\n'));
  files.set('weather.bin', Buffer.from(Array.from({length: 4096}, (_, i) => i & 255)));
  return files;
}

/* .zip files of Python's zipfile; each is more than a job may be, and what is said of it. */
const JOB = `z.writestr('a/job.csv', 'item,value\\n')\n`;
const HOSTILE = {
  'a name that steps out': [`z.writestr('a/../../job.csv', 'x')`, /leads out of the folder/],
  'an absolute name': [`z.writestr('x', 'y')\nz.filelist[0].filename = '/etc/job.csv'`, /absolute/],
  'a drive': [`z.writestr('C:/job.csv', 'x')`, /absolute/],
  'a link': [`i = zipfile.ZipInfo('a/job.csv')\ni.create_system = 3\ni.external_attr = 0o120777 << 16\nz.writestr(i, '/etc/passwd')`, /is a link/],
  '3000 files': [`for i in range(3000): z.writestr(f'a/{i}', '')`, /more than 1000 files/],
  'a bomb': [`${JOB}z.writestr('a/big', bytes(51 << 20))`, /more than 50 MB/],
  'a bomb of many files': [`${JOB}\nfor i in range(900): z.writestr(f'a/{i}', bytes(1 << 16))`, /more than 50 MB/],
  'no job': [`z.writestr('a/readme.txt', 'x')`, /holds no job.csv/],
};
const MORE = [`z.writestr('a/job.csv', bytes(200 << 20))`, `z.writestr('a/job.csv', 'item,value\\n' * 999)`, `z.writestr('a/job.csv', 'item,value\\n' * 999, zipfile.ZIP_STORED)`];

/* All of them: [name, bytes, what is said]. */
function hostile() {
  const zips = pythonZips([...Object.values(HOSTILE).map(([code]) => code), ...MORE]).map((b) => Buffer.from(b)), [lies, torn, damaged] = zips.slice(-MORE.length);
  lies.writeUInt32LE(1000, lies.indexOf(Buffer.from([0x50, 0x4B, 1, 2])) + 24);
  damaged[500] ^= 1;
  const n = 1e6, million = Buffer.alloc(n * 46 + 22);
  for (let i = 0; i < n; i++) million.writeUInt32LE(0x02014B50, i * 46);
  million.writeUInt32LE(0x06054B50, n * 46);
  million.writeUInt16LE(n & 0xFFFF, n * 46 + 8);
  million.writeUInt16LE(n & 0xFFFF, n * 46 + 10);
  million.writeUInt32LE(n * 46, n * 46 + 12);
  return [...Object.entries(HOSTILE).map(([name, [, line]], i) => [name, zips[i], line]), ['a million files', million, /more than 1000 files/], ['a bomb that lies about its size', lies, /more than it says/],
    ['a torn one', torn.subarray(0, -30), /torn/], ['one with a byte changed', damaged, /damaged/], ['something else', Buffer.from('GIF89a'), /torn/]];
}

const EVIL = '<img src=x onerror=window.struck=1><script>window.struck=1</script>';

export function folders(at) {
  const jobs = () => at.js('return [...document.querySelectorAll(".jobs .job b")].map((b) => b.textContent)');
  const take = async (path, folder = false) => (await at.driver.findElement(By.css(folder ? 'input[webkitdirectory]' : 'input[accept]'))).sendKeys(path);
  const taken = async (path, folder = false) => {
    const n = (await jobs()).length;
    await take(path, folder);
    await at.until('return document.querySelectorAll(".jobs .job").length > arguments[0]', `${path} is not taken: ${await at.js('return document.querySelector(".trouble")?.textContent')}`, n);
  };
  /* Saved by the button beside the job; the folder that another program unpacks from it. */
  const saved = async (name) => {
    for (const f of readdirSync(at.temp)) if (f.endsWith('.zip')) rmSync(`${at.temp}/${f}`);
    await at.press(`Save to a file: ${name}`);
    const file = await at.wait(() => readdirSync(at.temp).find((f) => f.endsWith('.zip')), 'a saved file');
    rmSync(`${at.temp}/out`, {recursive: true, force: true});
    execFileSync('python3', ['-c', 'import sys, zipfile; zipfile.ZipFile(sys.argv[1]).extractall(sys.argv[2])', `${at.temp}/${file}`, `${at.temp}/out`]);
    const [folder] = readdirSync(`${at.temp}/out`);
    return `${at.temp}/out/${folder}`;
  };
  const sameFiles = (folder, files, but = []) => {
    const got = readAll(folder);
    assert.deepEqual([...got.keys()].sort(), [...files.keys()].sort());
    for (const [name, bytes] of files) if (!but.includes(name)) assert.ok(Buffer.from(got.get(name)).equals(Buffer.from(bytes)), `${name} has changed`);
  };
  const throughAll = async () => {
    await at.$('.strip .one');
    for (const n of [0, 1, 2, 3, 4]) {
      await at.go(n);
      await at.until(['return document.querySelector(".strip .one")', 'return document.querySelector(".board")', 'return document.querySelector(".sentence")', 'return document.querySelector(".answer .taken, .answer .verdict")',
        'return document.querySelector(".paper:not(:disabled), .lacks")'][n], `place ${n}`);
    }
    await at.press('Show');
    await at.until('return document.querySelector(".show main")?.textContent.trim()', 'Show');
    await at.press('Close');
  };

  test('a job goes out as .zip with its bytes, and the command says of it what the page says', async () => {
    await at.size(SIZES[2]);
    const name = await at.made('The whole example');
    await at.go(3);
    await at.press('heat leak U');
    await at.until('return /=|Btu/.test(document.querySelector(".why pre")?.textContent)', 'why');
    const why = await at.text('.why pre');
    await at.fresh();
    const folder = await saved(name);
    sameFiles(folder, readAll(EXAMPLE));
    assert.equal(at.command(['compare', folder]), at.command(['compare', EXAMPLE]).replaceAll(EXAMPLE, folder));
    assert.equal(why.replaceAll('/job', folder), at.command(['compare', folder, '--explain', 'u']));
  });

  test('a folder typed by hand survives byte for byte, by .zip and as a folder; an edit changes its own cell', async () => {
    const files = byHand(), dir = `${at.temp}/Elm & 4`;
    mkdirSync(dir);
    writeAll(dir, files);
    const native = at.command(['compare', dir]);
    execFileSync('python3', ['-c', 'import shutil, sys; shutil.make_archive(sys.argv[1], "zip", sys.argv[2], sys.argv[3])', `${at.temp}/hand`, at.temp, 'Elm & 4']);
    await at.fresh();
    await taken(`${at.temp}/hand.zip`);
    await taken(dir, true);
    const [first, second] = (await jobs()).filter((n) => n.startsWith('Elm & 4')).sort();
    for (const name of [first, second]) {
      await at.open(name);
      await throughAll();
      await at.fresh();
      const folder = await saved(name);
      sameFiles(folder, files);
      assert.equal(at.command(['compare', folder]).replaceAll(folder, dir), native);
    }
    await at.open(first);
    await at.openOne('K1');
    await at.retype('css:input.reading[aria-label="width at the top"]', '47 5/8');
    await at.shows('.verdict', /\S/);
    await at.fresh();
    const folder = await saved(first);
    sameFiles(folder, files, ['openings.csv']);
    const before = text(files.get('openings.csv')).split('\r\n'), after = readFileSync(`${folder}/openings.csv`, 'utf8').split('\r\n');
    const changed = before.map((line, i) => [line, after[i]]).filter(([a, b]) => a !== b);
    assert.equal(after.length, before.length);
    assert.equal(changed.length, 1, 'one line has changed');
    const [was, is] = changed[0].map((line) => line.split(','));
    assert.deepEqual(is.filter((c, i) => c !== was[i]), ['47 5/8']);
    at.command(['compare', folder]);
  });

  test('hostile folders: one clear line each, and nothing has changed', async () => {
    await at.fresh();
    const before = await at.kept(), shown = await jobs();
    const file = `${at.temp}/hostile.zip`;
    for (const [name, bytes, line] of hostile()) {
      writeFileSync(file, bytes);
      await at.js('document.querySelector(".trouble")?.replaceChildren()');
      await take(file);
      await at.shows('.trouble', line);
      const told = await at.text('.trouble');
      assert.ok(told.length < 160 && !told.includes('\n'), `${name}: ${told}`);
      assert.deepEqual(await jobs(), shown, name);
    }
    assert.deepEqual(await at.kept(), before);
  });

  test('hostile text in any cell, item or name is shown as text', async () => {
    const dir = `${at.temp}/evil`, files = readAll(EXAMPLE);
    const cells = (bytes, what) => text(bytes).split('\n').map((line, i, all) => (line === '' || line.startsWith('#') || i <= all.findIndex((l) => !l.startsWith('#')) ? line : what(line.split(',')).join(','))).join('\n');
    const quoted = `"${EVIL}"`;
    const openings = files.get('openings.csv');
    /* what the program takes as any text first: every view has figures. Then every cell at once: every view has a refusal. */
    const some = new Map(files).set('job.csv', Buffer.from(text(files.get('job.csv')).replace('Harrow Bend 14', quoted)))
      .set('openings.csv', Buffer.from(text(openings).replace('K1,Kitchen,', `K1,${quoted},`).replace('sink below', quoted)));
    const every = new Map(files).set('openings.csv', Buffer.from(cells(openings, (row) => row.map((c, i) => (i ? quoted : c)))))
      .set('packages.csv', Buffer.from(cells(files.get('packages.csv'), (row) => row.map(() => quoted)))).set('job.csv', Buffer.from(cells(files.get('job.csv'), ([item]) => [item, quoted])));
    for (const [i, set] of [some, every].entries()) {
      rmSync(dir, {recursive: true, force: true});
      mkdirSync(dir);
      writeAll(dir, set);
      /* the folder's name is hostile, too */
      execFileSync('python3', ['-c', 'import os, sys, zipfile\nwith zipfile.ZipFile(sys.argv[1], "w") as z:\n  for f in os.listdir(sys.argv[2]): z.write(f"{sys.argv[2]}/{f}", f"{sys.argv[3]}/{f}")', `${at.temp}/evil.zip`, dir, `<img src=x onerror=window.struck=1> ${i}`]);
      await at.fresh();
      await taken(`${at.temp}/evil.zip`);
      await at.open(`<img src=x onerror=window.struck=1> ${i}`);
      await throughAll();
      await at.go(0);
      await at.shows('.head h1', /<img src=x/);
      await at.shows('.strip', i ? /\S/ : /<img src=x/);
      assert.equal(await at.js('return window.struck ?? null'), null);
      assert.equal(await at.js('return document.querySelectorAll("img[src=x], script[src], #page script").length'), 0);
    }
  });
}
