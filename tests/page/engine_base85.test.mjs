// Five signs for four bytes, held against Python's own b85 with the signs put over to ours, and back again.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { test } from 'node:test';
import { fromText, toText } from '../../src/page/engine/base85.js';
import { random } from './random.mjs';

const PYTHON = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz!#$%&()*+-;<=>?@^_`{|}~'; // base64.b85encode (RFC 1924)
const OURS = '0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ.-:+=^!/*?&,>()[]{}@%$#';

test('the example of ZeroMQ RFC 32', () => {
  const bytes = Uint8Array.from([0x86, 0x4F, 0xD2, 0x6F, 0xB5, 0x59, 0xF7, 0x5B]);
  assert.equal(toText(bytes), 'HelloWorld');
  assert.deepEqual(fromText('HelloWorld'), bytes);
});

test('any bytes, any length', () => {
  const r = random(85);
  const all = Array.from({ length: 200 }, (_, n) => Uint8Array.from({ length: n }, () => (r.chance(0.2) ? 255 : r.below(256))));
  const hex = all.map((bytes) => Buffer.from(bytes).toString('hex'));
  const told = execFileSync('python3', ['-c', 'import base64, sys\nfor line in sys.stdin: print(base64.b85encode(bytes.fromhex(line)).decode())'], { input: `${hex.join('\n')}\n` });
  String(told).trimEnd().split('\n').forEach((want, i) => {
    const text = toText(all[i]);
    assert.equal(text, [...want].map((sign) => OURS[PYTHON.indexOf(sign)]).join(''), hex[i]);
    assert.ok(!/[<"'\s\\]/.test(text));
    assert.deepEqual(fromText(text), all[i]);
  });
});
