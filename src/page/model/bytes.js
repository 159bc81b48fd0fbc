// Text of a job file: UTF-8, else windows-1252, as src/job/csv.c takes it.

/* Code points of the bytes 0x80 to 0x9F, 0 none (base/windows1252.c). */
const HIGH = [0x20AC, 0, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0, 0x017D, 0,
  0, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0, 0x017E, 0x0178];
const LOW = new Map(HIGH.map((point, i) => [point, 0x80 + i]).filter(([point]) => point));

const utf8 = new TextDecoder('utf-8', {ignoreBOM: true});
const to8 = new TextEncoder();

/* Length of the UTF-8 letter at, 0 when it is none; as base/text.c. */
function letter(b, at) {
  const lead = b[at];
  if (lead < 0x80) return 1;
  const n = lead >= 0xC2 && lead < 0xE0 ? 2 : lead >= 0xE0 && lead < 0xF0 ? 3 : lead >= 0xF0 && lead < 0xF5 ? 4 : 0;
  if (n === 0 || at + n > b.length) return 0;
  for (let i = 1; i < n; i++) if ((b[at + i] & 0xC0) !== 0x80) return 0;
  const second = b[at + 1];
  if (lead === 0xE0 && second < 0xA0) return 0;
  if (lead === 0xED && second > 0x9F) return 0;
  if (lead === 0xF0 && second < 0x90) return 0;
  if (lead === 0xF4 && second > 0x8F) return 0;
  return n;
}

/* Whether the bytes are of a code page with a byte a letter: some are no UTF-8, and no letter of several bytes is. */
export function isBytewise(b) {
  let strange = false;
  if (b[0] === 0xEF && b[1] === 0xBB && b[2] === 0xBF) return false;
  if ((b[0] === 0xFF && b[1] === 0xFE) || (b[0] === 0xFE && b[1] === 0xFF)) return false;
  if (b.includes(0)) return false;
  for (let at = 0; at < b.length;) {
    const n = letter(b, at);
    if (n > 1) return false;
    strange ||= n === 0;
    at += n || 1;
  }
  return strange;
}

/* 'utf-8' or 'windows-1252'. */
export function codeOf(b) {
  return isBytewise(b) && b.every((byte) => byte < 0x80 || byte > 0x9F || HIGH[byte - 0x80]) ? 'windows-1252' : 'utf-8';
}

export function decode(b, code) {
  if (code === 'utf-8') return utf8.decode(b);
  let text = '';
  for (const byte of b) text += String.fromCharCode(byte >= 0x80 && byte < 0xA0 ? HIGH[byte - 0x80] : byte);
  return text;
}

/* null when the code page lacks a letter of the text. */
export function encode(text, code) {
  if (code === 'utf-8') return to8.encode(text);
  const b = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) {
    const point = text.charCodeAt(i);
    const byte = point < 0x80 || (point >= 0xA0 && point < 0x100) ? point : LOW.get(point);
    if (byte === undefined) return null;
    b[i] = byte;
  }
  return b;
}

export function join(parts) {
  const whole = new Uint8Array(parts.reduce((n, p) => n + p.length, 0));
  let at = 0;
  for (const p of parts) {
    whole.set(p, at);
    at += p.length;
  }
  return whole;
}

export function same(a, b) {
  return a === b || (a.length === b.length && a.every((byte, i) => byte === b[i]));
}
