// A job folder as .zip. What comes in is not trusted: names, links, counts and sizes are looked at before a byte is unpacked,
// unpacking stops at the first byte too many, and each file's checksum is reckoned again.
import {Inflate, strFromU8, zipSync} from 'fflate';

import {Intake, MOST_FILES, jobsAmong, laidOut, safePath, theJobAmong} from './folder.js';

const LOCAL = 0x04034B50, ENTRY = 0x02014B50, END = 0x06054B50;
const END_SIZE = 22, ENTRY_SIZE = 46, LOCAL_SIZE = 30;
const STEP = 4096; /* 1032 times as much may come out of it at once */
const LINK = 0xA000, KINDS = 0xF000, REGULAR = 0x8000, FOLDER = 0x4000; /* of a Unix mode */
const MOST_ZIP = 64 * 2 ** 20;

const torn = () => new Error('the file is torn or damaged');

/* CRC-32 of ISO 3309 (polynomial 0xEDB88320 reflected), as zip wants it. */
const CRC = Uint32Array.from({length: 256}, (_, n) => {
  for (let k = 0; k < 8; k++) n = n & 1 ? 0xEDB88320 ^ (n >>> 1) : n >>> 1;
  return n;
});
export function crc32(bytes) {
  let c = ~0;
  for (const byte of bytes) c = CRC[(c ^ byte) & 0xFF] ^ (c >>> 8);
  return ~c >>> 0;
}

/* Where the list of entries begins and how many it has. */
function findEnd(view) {
  for (let at = view.byteLength - END_SIZE; at >= Math.max(0, view.byteLength - END_SIZE - 0xFFFF); at--) {
    if (view.getUint32(at, true) !== END || at + END_SIZE + view.getUint16(at + 20, true) !== view.byteLength) continue;
    const count = view.getUint16(at + 10, true), size = view.getUint32(at + 12, true), start = view.getUint32(at + 16, true);
    if (view.getUint16(at + 4, true) !== 0 || view.getUint16(at + 8, true) !== count) throw new Error('it is one of several parts');
    if (count > MOST_FILES * 2 || count === 0xFFFF || start === 0xFFFFFFFF)
      throw new Error(`it holds more than ${MOST_FILES} files, which no job does`);
    if (start + size !== at) throw torn();
    return {count, start, end: at};
  }
  throw torn();
}

const textOf = (bytes) => {
  try {
    return new TextDecoder('utf-8', {fatal: true}).decode(bytes);
  } catch {
    return strFromU8(bytes, true); /* an old writer's code page: a byte a letter */
  }
};

function entryAt(bytes, view, at, end) {
  if (at + ENTRY_SIZE > end || view.getUint32(at, true) !== ENTRY) throw torn();
  const u16 = (k) => view.getUint16(at + k, true), u32 = (k) => view.getUint32(at + k, true);
  const length = u16(28), next = at + ENTRY_SIZE + length + u16(30) + u16(32);
  if (next > end) throw torn();
  const raw = bytes.subarray(at + ENTRY_SIZE, at + ENTRY_SIZE + length);
  const unix = u16(4) >> 8 === 3 || u16(4) >> 8 === 19;
  return {name: textOf(raw), raw, next, flags: u16(8), method: u16(10), crc: u32(16), packed: u32(20), size: u32(24), start: u32(42),
    mode: unix ? u32(38) >>> 16 : 0};
}

/* What must be right of an entry before it is unpacked. */
function refuse(e) {
  const name = JSON.stringify(e.name.slice(0, 60)), kind = e.mode & KINDS;
  if (kind === LINK) throw new Error(`${name} is a link; want files`);
  if (kind !== 0 && kind !== REGULAR && kind !== FOLDER) throw new Error(`${name} is no regular file`);
  if (e.flags & 0x2041) throw new Error(`${name} is encrypted; want files without a password`);
  if (e.method !== 0 && e.method !== 8) throw new Error(`${name} is packed by method ${e.method}, which is not read here; want deflate`);
}

function packedBytes(bytes, view, e, listStart) {
  const at = e.start;
  if (at + LOCAL_SIZE > listStart || view.getUint32(at, true) !== LOCAL) throw torn();
  const length = view.getUint16(at + 26, true), from = at + LOCAL_SIZE + length + view.getUint16(at + 28, true);
  const local = bytes.subarray(at + LOCAL_SIZE, at + LOCAL_SIZE + length);
  if (from + e.packed > listStart) throw torn();
  if (textOf(local) !== e.name) throw new Error(`${JSON.stringify(e.name.slice(0, 60))} has two names`);
  return {from, to: from + e.packed};
}

/* Unpacks, and stops as soon as there is more than the entry says. */
function unpack(packed, e) {
  if (e.method === 0) {
    if (packed.length !== e.size) throw torn();
    return packed.slice();
  }
  const whole = new Uint8Array(e.size);
  let n = 0, ended = false;
  const stream = new Inflate((part, last) => {
    if (n + part.length > e.size) throw new Error('it unpacks to more than it says');
    whole.set(part, n);
    n += part.length;
    ended = last;
  });
  try {
    for (let at = 0; at < packed.length; at += STEP) stream.push(packed.subarray(at, at + STEP), at + STEP >= packed.length);
  } catch (why) {
    throw /unpacks to more/.test(why.message) ? why : torn();
  }
  if (!ended || n !== e.size) throw torn();
  return whole;
}

/* The files of a .zip, Map path -> bytes, or an Error with one line. */
function unzip(bytes) {
  if (bytes.length > MOST_ZIP) throw new Error(`the file is larger than ${MOST_ZIP / 2 ** 20} MB, which no job is`);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < END_SIZE) throw torn();
  const list = findEnd(view), intake = new Intake(), wanted = [];
  let at = list.start;
  for (let n = 0; n < list.count; n++) {
    const e = entryAt(bytes, view, at, list.end);
    at = e.next;
    const path = /[\\/]$/.test(e.name) ? void safePath(e.name) : intake.admit(e.name);
    refuse(e);
    if (!path) continue;
    intake.count(e.size);
    wanted.push({...e, path});
  }
  if (at !== list.end) throw torn();
  const places = wanted.map((e) => ({e, ...packedBytes(bytes, view, e, list.start)})).sort((a, b) => a.from - b.from);
  places.forEach((p, i) => {
    if (i > 0 && p.from < places[i - 1].to) throw new Error('two of its files lie over each other');
  });
  for (const {e, from, to} of places) {
    const file = unpack(bytes.subarray(from, to), e);
    if (crc32(file) !== e.crc) throw new Error(`${JSON.stringify(e.name.slice(0, 60))} is damaged: its checksum is wrong`);
    intake.put(e.path, file);
  }
  return intake.done();
}

/* The one job of a .zip, {name, files, left}. fileName: as the device calls it, for a .zip without a folder. */
export function readZip(bytes, fileName = '') {
  return theJobAmong(unzip(bytes), fileName.replace(/\.zip$/i, ''));
}

/* All jobs of a .zip. */
export function readZipAll(bytes, fileName = '') {
  return jobsAmong(unzip(bytes), fileName.replace(/\.zip$/i, ''));
}

/* The same job gives the same bytes: names sorted, one date (the first that a .zip can say), files readable by all. */
export function writeZip(job) {
  const options = {mtime: new Date(1980, 0, 1), os: 3, attrs: (REGULAR | 0o644) * 0x10000, level: 6};
  return zipSync(Object.fromEntries([...laidOut(job)].map(([path, bytes]) => [path, [bytes, options]])));
}
