// Where the files of a job stand before a run: under /job, or beside it, and nowhere else.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { lay, pathOf, Refused } from '../../src/page/engine/lay.js';

test('a job and the lists that it shares', () => {
  assert.equal(pathOf('job.csv'), '/job/job.csv');
  assert.equal(pathOf('weather/a..b.csv'), '/job/weather/a..b.csv');
  assert.equal(pathOf('../shared/prices.csv'), '/shared/prices.csv');
  assert.equal(pathOf('../../prices.csv'), '/prices.csv');
});

const hostile = [
  '', '.', '..', '../', '../..', '/', '/etc/passwd', '//job/a', 'a//b', 'a/', './a', 'a/./b', 'a/../b', 'a/../../out/b', '../a/../out/b',
  '../out/sheet.html', '../../out/x', '../dev/null', '../dev/random', '../proc/self', '../tmp/x', '../home/x', '../job/job.csv', '../out', 'a\0b', 'a\nb',
];
test('names that lead elsewhere are refused in one line', () => {
  for (const name of hostile)
    assert.throws(() => pathOf(name), (fault) => fault instanceof Refused && /^panewright: the job's file ".*$/.test(fault.message), JSON.stringify(name));
});

// What a name may do at most: parts of every kind in any order never end outside.
test('any parts stay under /job or make a place of their own', () => {
  const parts = ['..', '.', '', 'a', 'job', 'out', 'dev', '...', ' ', 'é'];
  let kept = 0;
  for (let i = 0; i < parts.length ** 4; i++) {
    const name = [0, 1, 2, 3].map((k) => parts[Math.floor(i / parts.length ** k) % parts.length]).join('/');
    let path;
    try {
      path = pathOf(name);
    } catch {
      continue;
    }
    kept += 1;
    assert.equal(new URL(`x:${path.replaceAll(' ', '%20')}`).pathname.split('/').length, path.split('/').length, path); // nothing left to resolve
    assert.ok(path.startsWith('/job/') || !/^\/(job|out|dev|proc|tmp|home)(\/|$)/.test(path), path);
  }
  assert.ok(kept > 100);
});

test('two names of one place, a file that is a folder too', () => {
  const disk = new Map();
  const FS = {
    mkdirTree(path) {
      for (let at = path.indexOf('/', 1); at > 0; at = path.indexOf('/', at + 1)) if (disk.has(path.slice(0, at))) throw new Error('EEXIST');
      if (disk.has(path)) throw new Error('EEXIST');
    },
    writeFile: (path, bytes) => disk.set(path, bytes),
  };
  const of = (...names) => new Map(names.map((name) => [name, new Uint8Array(1)]));
  lay(FS, of('job.csv', '../shared/a.csv'));
  assert.deepEqual([...disk.keys()], ['/job/job.csv', '/shared/a.csv']);
  assert.throws(() => lay(FS, of('../b.csv', '../../b.csv')), Refused);
  assert.throws(() => lay(FS, of('c', 'c/d')), Refused);
});
