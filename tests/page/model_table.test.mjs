// The page's CSV against two readers outside it: the program's own (tests/page/cells.c) and Python's csv module (RFC 4180).
import assert from 'node:assert/strict';
import {spawnSync} from 'node:child_process';
import {readFileSync, readdirSync} from 'node:fs';
import {test} from 'node:test';

import {encode} from '../../src/page/model/bytes.js';
import {Table, clean} from '../../src/page/model/table.js';
import {random, soundText, wildBytes, wildText} from './random.mjs';

const BUILD = process.env.BUILD ?? 'build';
const utf8 = (text) => new TextEncoder().encode(text);

/* The program's view of each text. */
function programSees(texts) {
  const input = Buffer.concat(texts.flatMap((b) => [Buffer.from(`${b.length}\n`), b]));
  const run = spawnSync(`${BUILD}/tests/page/cells`, {input, maxBuffer: 1 << 28});
  assert.equal(run.status, 0, String(run.stderr));
  return String(run.stdout).trimEnd().split('\n').map((line) => JSON.parse(line));
}

/* Python's view of each text: rows of cells, notes and blank lines included. */
function pythonSees(texts) {
  const code = `
import csv, io, json, sys
for text in json.load(sys.stdin):
    print(json.dumps(list(csv.reader(io.StringIO(text, newline='')))))`;
  const run = spawnSync('python3', ['-c', code], {input: JSON.stringify(texts), maxBuffer: 1 << 28});
  assert.equal(run.status, 0, String(run.stderr));
  return String(run.stdout).trimEnd().split('\n').map((line) => JSON.parse(line));
}

const inPython = (cells) => cells.map((c) => c.trim());

test('2000 texts: read, then bytes() the same, whatever they hold', () => {
  const r = random(1);
  for (let i = 0; i < 2000; i++) {
    const text = i % 2 ? soundText(r) : wildText(r);
    const b = i % 5 ? utf8((i % 3 ? '' : '\ufeff') + text) : encode(text, 'windows-1252') ?? utf8(text);
    assert.deepEqual(Table.read(b).bytes(), b);
  }
});

test('4000 texts: rows, cells and lines as the program reads them', () => {
  const r = random(2);
  const texts = Array.from({length: 4000}, (_, i) => {
    const text = i % 2 ? soundText(r) : wildText(r);
    if (i % 4 === 0) return wildBytes(r);
    return i % 7 ? utf8((i % 3 ? '' : '\ufeff') + text) : encode(text, 'windows-1252') ?? utf8(text);
  });
  let read = 0, refused = 0;
  programSees(texts).forEach((saw, i) => {
    if (saw.refused) {
      refused++;
      return;
    }
    read++;
    const t = Table.read(texts[i]), where = JSON.stringify(String(Buffer.from(texts[i])));
    const rows = [t.head, ...Array.from({length: t.rows}, (_, k) => t.head.map((_h, c) => t.cell(k, c)))];
    assert.deepEqual(rows.map((row) => row.map(clean)), saw.rows, where);
    assert.deepEqual(rows.map((_, k) => t.line(k - 1)), saw.lines, where);
    for (let k = 0; k < t.rows; k++) assert.equal(t.rowOfLine(t.line(k)), k);
  });
  assert.ok(read > 2200 && refused > 100, `${read} read, ${refused} refused`);
});

test('2000 edits: Python sees the changed cell and nothing else', () => {
  const r = random(3), before = [], after = [], wants = [];
  const typed = ['36 1/4', 'a, b', '6\'-0"', 'two\nlines', 'ñ', '', 'x', ' ', '"'];
  while (before.length < 2000) {
    const b = utf8(soundText(r)), t = Table.read(b);
    if (t.rows === 0) continue;
    const row = r.below(t.rows), column = r.below(t.head.length), text = r.one(typed);
    before.push(String(Buffer.from(b)));
    after.push(String(Buffer.from(t.with(row, column, text).bytes())));
    wants.push({line: t.line(row), row, column, text});
  }
  const was = pythonSees(before), is = pythonSees(after), seen = programSees(before.map(utf8));
  for (let i = 0; i < was.length; i++) {
    const {row, column, text} = wants[i];
    const cells = JSON.stringify(seen[i].rows[row + 1]);
    assert.equal(is[i].length, was[i].length, before[i]);
    const changed = is[i].flatMap((line, n) => {
      const old = inPython(was[i][n]), now = inPython(line);
      const width = Math.max(old.length, now.length);
      return Array.from({length: width}, (_, k) => [k, now[k] ?? '']).filter(([k, c]) => c !== (old[k] ?? ''));
    });
    const old = Table.read(utf8(before[i])).cell(row, column);
    assert.deepEqual(changed, old === text.trim() ? [] : [[column, text.trim()]], `${before[i]}\n${cells}`);
  }
});

test('edits touch their own cell alone, byte by byte', () => {
  const r = random(4);
  for (let i = 0; i < 2000; i++) {
    const t = Table.read(utf8((i % 3 ? '' : '\ufeff') + soundText(r)));
    if (t.rows === 0) continue;
    const row = r.below(t.rows), column = r.below(t.head.length), old = t.cell(row, column);
    const now = t.with(row, column, 'zz').bytes(), b = t.bytes();
    let from = 0, to = 0;
    while (from < b.length && b[from] === now[from]) from++;
    while (to < Math.min(b.length, now.length) - from && b.at(-1 - to) === now.at(-1 - to)) to++;
    const gone = String(Buffer.from(b.subarray(from, b.length - to)));
    assert.ok(gone.length <= old.length * 2 + 2, `${JSON.stringify(gone)} for ${JSON.stringify(old)}`);
    assert.equal(t.with(row, column, old), t);
    assert.equal(Table.read(now).cell(row, column), 'zz');
    const mid = t.with(row, column, 'zz');
    assert.equal(mid.rows, t.rows);
    assert.deepEqual(Table.read(mid.bytes()).rows, t.rows);
  }
});

test('rows come, go and move; notes stay', () => {
  const r = random(5);
  for (let i = 0; i < 1000; i++) {
    const b = utf8(soundText(r)), t = Table.read(b);
    if (t.rows < 2) continue;
    const row = r.below(t.rows), to = r.below(t.rows);
    const all = (x) => Array.from({length: x.rows}, (_, k) => JSON.stringify(x.record(k)));
    const moved = all(t), [one] = moved.splice(row, 1);
    moved.splice(to, 0, one);
    const m = Table.read(t.moved(row, to).bytes());
    assert.deepEqual(all(m), moved, String(Buffer.from(b)));
    assert.equal(m.bytes().length, b.length);
    assert.deepEqual(m.moved(to, row).bytes().length, b.length);
    const gone = Table.read(t.withoutRow(row).bytes());
    assert.deepEqual(all(gone), all(t).toSpliced(row, 1));
    const come = Table.read(t.withRow(row, {'col 0': 'new, one'}).bytes());
    assert.equal(come.cell(row + 1, 'col_0'), 'new, one');
    assert.deepEqual(all(come).toSpliced(row + 1, 1), all(t));
    assert.deepEqual(Table.read(come.withoutRow(row + 1).bytes()).rows, t.rows);
    const wide = t.withColumn('note_own');
    assert.equal(Table.read(wide.bytes()).cell(row, 'note own'), '');
    assert.equal(Table.read(wide.with(row, 'note_own', 'dog').bytes()).cell(row, 'Note-Own'), 'dog');
  }
});

test('windows-1252 stays so; a letter that it lacks makes the file UTF-8 with the same texts', () => {
  const b = encode('tag,note\r\n1,caf\u00e9 \u2013 80 \u20ac\r\n', 'windows-1252'), t = Table.read(b);
  assert.equal(t.code, 'windows-1252');
  assert.equal(t.cell(0, 'note'), 'café – 80 €');
  assert.deepEqual(t.with(0, 'tag', 'é').bytes(), encode('tag,note\r\né,café – 80 €\r\n', 'windows-1252'));
  assert.equal(String(Buffer.from(t.with(0, 'tag', '½ → 中').bytes())), 'tag,note\r\n½ → 中,café – 80 €\r\n');
  /* "Ã©" in the code page is the two bytes of a UTF-8 é: then nobody could tell the code */
  const torn = Table.read(t.with(0, 'tag', 'Ã©').bytes());
  assert.deepEqual([torn.cell(0, 'tag'), torn.cell(0, 'note')], ['Ã©', 'café – 80 €']);
});

test('what cannot be written is refused and changes nothing', () => {
  const t = Table.read(utf8('tag,note\n1,x\n'));
  assert.throws(() => t.with(0, 'tag', '# 2'), /would make its row a note/);
  assert.throws(() => t.with(0, 'tag', '#'), /note/);
  assert.equal(Table.read(t.with(0, 'tag', '#2').bytes()).cell(0, 0), '#2');
  assert.throws(() => Table.read(utf8('tag\n"1\n2\n')).with(0, 0, 'x'), /never closed/);
  for (const b of [utf8('a\0b\n1\n'), Uint8Array.of(0x1F, 0x8B, 8, 0, 65), utf8('PK\x03\x04,a\n1\n')]) {
    assert.throws(() => Table.read(b).withRow(-1, {a: '1'}), /no CSV text|no header/);
    assert.deepEqual(Table.read(b).bytes(), b);
  }
});

test('every CSV of the examples is given back as it is', () => {
  let n = 0;
  for (const name of readdirSync('.', {recursive: true})) {
    if (!/^(examples|tests\/street)\/.*\.csv$/.test(name)) continue;
    const b = new Uint8Array(readFileSync(name)), t = Table.read(b);
    assert.ok(t.rows > 0, name);
    assert.deepEqual(t.with(0, 0, 'zz').with(0, 0, t.cell(0, 0)).bytes(), b, name);
    n++;
  }
  assert.ok(n > 40, String(n));
});
