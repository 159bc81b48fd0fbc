// A CSV file of a job that keeps every byte it was not asked to change: notes, order, unknown columns, line ends, mark of
// order, quoting. A Table never changes; each edit gives a new one, so undo is keeping the old.
import {codeOf, decode, encode, isBytewise, join} from './bytes.js';
import {cut, dress, endMark, isNote, lines, unquote} from './rows.js';

const MARK = Uint8Array.of(0xEF, 0xBB, 0xBF);
const NONE = new Uint8Array(0);
const HEADER_WORD = 63;

const ascii = (text) => encode(text, 'utf-8');
const asLower = (text) => text.replace(/[A-Z]/g, (c) => c.toLowerCase());

/* What the program leaves out of any text (base/text.c): marks that cannot be seen. */
// eslint-disable-next-line no-control-regex
const UNSEEN = /[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\u200e\u200f\u061c\ufeff\ufdd0-\ufdef\u2028\u2029]|\p{Noncharacter_Code_Point}/gu;
export const clean = (text) => text.replace(/[\t\n\r]/g, ' ').replace(UNSEEN, '');

/* A name as the program compares it: letters of either case, blanks and '-' as '_'. */
export const nameOf = (text) => asLower(clean(text)).replace(/[ -]/g, '_').slice(0, HEADER_WORD);

/* Texts that would make the program read other cells than were written. */
function refuse(text, column) {
  if (text.includes('\0')) throw new Error('a zero byte is no text');
  if (column === 0 && /^\s*#(\s|$)/.test(text))
    throw new Error(`a first cell that reads '${text.trim().slice(0, 20)}' would make its row a note; leave the blank behind # out`);
}

export class Table {
  #mark;
  #code;
  #pieces;
  #rowPiece; /* which piece each row is */
  #head = null;
  #headPiece = -1;
  #open;
  #bytes = null;

  constructor(mark, code, pieces, open) {
    this.#mark = mark;
    this.#code = code;
    this.#pieces = pieces;
    this.#open = open;
    this.#headPiece = pieces.findIndex((p) => p.row);
    this.#rowPiece = pieces.flatMap((p, i) => (p.row && i !== this.#headPiece ? [i] : []));
  }

  /* Takes any bytes; a file that the program refuses can still be given back, but not edited. */
  static read(bytes) {
    const marked = MARK.every((byte, i) => bytes[i] === byte);
    const code = codeOf(bytes);
    const {pieces, open} = cut(marked ? bytes.subarray(3) : bytes);
    let width = 0;
    for (const p of pieces) {
      const texts = (p.cells ?? []).map((c) => clean(decode(unquote(p.bytes.subarray(...c)), code)));
      p.row = texts.length > 0 && !isNote(ascii(texts[0])) && (width === 0 || texts.slice(0, width).some((t) => t !== ''));
      if (p.row && width === 0) width = texts.length;
    }
    return new Table(marked ? MARK : NONE, code, pieces, open);
  }

  get head() {
    return (this.#head ??= this.#headPiece < 0 ? [] : this.#texts(this.#pieces[this.#headPiece]));
  }

  get rows() {
    return this.#rowPiece.length;
  }

  get code() {
    return this.#code;
  }

  /* The column of that name (or the number itself), -1 none. */
  column(name) {
    if (typeof name === 'number') return name >= 0 && name < this.head.length ? name : -1;
    const want = nameOf(name);
    return this.head.findIndex((h) => nameOf(h) === want);
  }

  /* The text of a cell without blanks around it, "" where there is none. */
  cell(row, column) {
    const c = this.column(column), p = this.#piece(row);
    return c < 0 || c >= p.cells.length ? '' : this.#text(p, c);
  }

  /* A row's cells by name; of a name that stands twice the first. */
  record(row) {
    const p = this.#piece(row);
    const texts = this.#texts(p);
    return Object.fromEntries(this.head.map((h, i) => [nameOf(h), texts[i] ?? '']).reverse());
  }

  /* The line on which a row begins (-1: the header), counted as in the program's messages. */
  line(row) {
    const at = row < 0 ? this.#headPiece : this.#rowPiece[row];
    return 1 + this.#pieces.slice(0, at).reduce((n, p) => n + lines(p.bytes), 0);
  }

  /* The row that a line of a message is of: -1 the header or a note, else its number. */
  rowOfLine(line) {
    let row = this.rows - 1;
    while (row >= 0 && this.line(row) > line) row--;
    return row >= 0 && line < this.line(row) + lines(this.#piece(row).bytes) ? row : -1;
  }

  bytes() {
    return (this.#bytes ??= join([this.#mark, ...this.#pieces.map((p) => p.bytes)]));
  }

  with(row, column, text) {
    const at = this.column(column);
    if (at < 0) return this.withColumn(column).with(row, column, text);
    if (this.cell(row, at) === text) return this;
    refuse(text, at);
    const table = this.#writable(text), p = table.#piece(row);
    return table.#replaced(table.#rowPiece[row], table.#withCell(p, at, text));
  }

  /* A row below row `after` (-1: below the header) with the texts of {column: text}. */
  withRow(after, texts = {}) {
    let table = this.#writable(Object.values(texts).join(''));
    if (table.#headPiece < 0) throw new Error('the file has no header of columns');
    for (const name of Object.keys(texts)) if (table.column(name) < 0) table = table.withColumn(name);
    const at = after < 0 ? table.#headPiece : table.#rowPiece[after];
    const cells = table.head.map(() => '');
    for (const [name, text] of Object.entries(texts)) {
      refuse(text, table.column(name));
      cells[table.column(name)] = text;
    }
    const row = piece(cells.map((c) => table.#cellBytes(c)));
    return table.#inserted(at, row);
  }

  withoutRow(row) {
    this.#writable('');
    return this.#made(this.#pieces.toSpliced(this.#rowPiece[row], 1));
  }

  /* Row `row` becomes row number `to`; notes stay where they are. */
  moved(row, to) {
    if (row === to) return this;
    this.#writable('');
    const from = this.#rowPiece[row], goal = this.#rowPiece[to];
    const pieces = this.#pieces.toSpliced(from, 1).toSpliced(goal, 0, this.#pieces[from]);
    return this.#made(this.#endedLikeBefore(pieces));
  }

  withColumn(name) {
    if (this.column(name) >= 0) return this;
    const table = this.#writable(name);
    if (table.#headPiece < 0) return table.#made([...table.#pieces, piece([table.#cellBytes(name)], '\n')]);
    const head = table.#pieces[table.#headPiece];
    return table.#replaced(table.#headPiece, table.#withCell(head, head.cells.length, name));
  }

  // ---------------------------------------------------------------- pieces

  #piece(row) {
    const at = this.#rowPiece[row];
    if (at === undefined) throw new RangeError(`there is no row ${row}`);
    return this.#pieces[at];
  }

  #text(p, c) {
    return decode(unquote(p.bytes.subarray(...p.cells[c])), this.#code);
  }

  #texts(p) {
    return p.cells.map((_, c) => this.#text(p, c));
  }

  #made(pieces) {
    return new Table(this.#mark, this.#code, pieces, this.#open).#asRead();
  }

  #replaced(at, p) {
    return this.#made(this.#pieces.with(at, p));
  }

  /* Below piece `at`; a last line without an end mark stays the only one. */
  #inserted(at, p) {
    const end = this.#endOfLines();
    const before = this.#pieces[at], bare = endMark(before.bytes) === '';
    const pieces = [...this.#pieces.slice(0, at), bare ? ended(before, end) : before, bare ? p : ended(p, end), ...this.#pieces.slice(at + 1)];
    return this.#made(pieces);
  }

  #endOfLines() {
    for (const p of [this.#pieces[this.#headPiece], ...this.#pieces]) if (p && endMark(p.bytes)) return endMark(p.bytes);
    return '\n';
  }

  /* After a move only the last piece may lack an end mark, and lacks it as before. */
  #endedLikeBefore(pieces) {
    const bare = endMark(this.#pieces.at(-1).bytes) === '', last = pieces.length - 1;
    if (!bare) return pieces;
    return pieces.map((p, i) => (i === last ? unended(p) : endMark(p.bytes) === '' ? ended(p, this.#endOfLines()) : p));
  }

  /* Cell c of a row with another text, in the dress of the old one where that can hold it. */
  #withCell(p, c, text) {
    const cells = p.cells.map((span) => p.bytes.subarray(...span));
    while (cells.length < c) cells.push(NONE);
    cells[c] = this.#cellBytes(text, cells[c]);
    return piece(cells, endMark(p.bytes));
  }

  #cellBytes(text, old = NONE) {
    const {before, behind, quoted} = dress(old);
    if (quoted) return join([before, this.#quote(text), behind]);
    if (/[",\r\n]/.test(text)) return this.#quote(text);
    return join([before, encode(text, this.#code), behind]);
  }

  #quote(text) {
    return encode(`"${text.replaceAll('"', '""')}"`, this.#code);
  }

  // ---------------------------------------------------------------- what may be written

  /* This table, in UTF-8 where its code page lacks a letter of the text. */
  #writable(text) {
    if (this.#open) throw new Error('a quote in the file is never closed; it can be kept, not edited');
    const b = this.bytes();
    if (b.includes(0) || (b[0] === 0x1F && b[1] === 0x8B) || (b[0] === 0x50 && b[1] === 0x4B && b[2] === 3))
      throw new Error('the file is no CSV text; it can be kept, not edited');
    return encode(text, this.#code) ? this : this.#inUtf8();
  }

  #inUtf8() {
    const b = join(this.#pieces.map((p) => p.bytes));
    const kept = this.#pieces.map((p) => {
      if (!p.cells) return {...p, bytes: encode(decode(p.bytes, this.#code), 'utf-8')};
      const cells = p.cells.map((span) => encode(decode(p.bytes.subarray(...span), this.#code), 'utf-8'));
      return {...(cells.length ? piece(cells, endMark(p.bytes)) : p), row: p.row};
    });
    return b.length ? new Table(this.#mark, 'utf-8', kept, this.#open) : this;
  }

  /* Bytes of a code page that would read as UTF-8 letters are written in UTF-8 after all. */
  #asRead() {
    if (this.#code === 'utf-8') return this;
    const b = this.bytes();
    return isBytewise(b) || b.every((byte) => byte < 0x80) ? this : this.#inUtf8();
  }
}

function piece(cells, end = '') {
  const parts = [], spans = [];
  let at = 0;
  for (const c of cells) {
    if (spans.length) {
      parts.push(ascii(','));
      at++;
    }
    parts.push(c);
    spans.push([at, at + c.length]);
    at += c.length;
  }
  return {bytes: join([...parts, ascii(end)]), cells: spans, row: true};
}

const ended = (p, end) => ({...p, bytes: join([p.bytes, ascii(end)])});
const unended = (p) => ({...p, bytes: p.bytes.subarray(0, p.bytes.length - endMark(p.bytes).length)});
