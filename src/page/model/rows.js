// Cuts the bytes of a CSV file into lines of notes, blanks and rows, and a row into cells, just as src/job/csv.c with libcsv
// (not strict) does, so that page and program see the same rows.

const CR = 13, LF = 10, SPACE = 32, TAB = 9, COMMA = 44, QUOTE = 34, HASH = 35;

const isSpace = (c) => c === SPACE || (c >= 9 && c <= 13);
const isBlank = (c) => c === SPACE || c === TAB;
const isEnd = (c) => c === CR || c === LF;

/* "# " or a bare "#" begins a note; "#1" may be a tag. */
export const isNote = (b) => b.length > 0 && b[0] === HASH && (b.length === 1 || isSpace(b[1]));

/* Offset behind the line that begins at, its end mark included. */
function lineEnd(b, at) {
  while (at < b.length && !isEnd(b[at])) at++;
  if (b[at] === CR && b[at + 1] === LF) return at + 2;
  return Math.min(at + 1, b.length);
}

/* How many lines end in b. */
export function lines(b) {
  let n = 0;
  for (let at = 0; at < b.length; n++) at = lineEnd(b, at);
  return n;
}

/* The end mark that b ends with: "\r\n", "\n", "\r" or "". */
export function endMark(b) {
  const last = b[b.length - 1];
  if (last === CR) return '\r';
  if (last !== LF) return '';
  return b[b.length - 2] === CR ? '\r\n' : '\n';
}

/* "sep=," in the first line tells a spreadsheet how cells are parted. */
function isSeparator(b) {
  const word = String.fromCharCode(...b.subarray(0, 5)).toLowerCase();
  return word === 'sep=,' && (b.length === 5 || isEnd(b[5]));
}

/* The row that begins at start: where it ends, the [from, to) of its cells, counted from its first byte (none: a blank
 * line), and whether a quote stays open. The states are libcsv's. */
function rowAt(b, start) {
  const cells = [];
  let from = start, at = start, state = 'row', quoted = false, spaces = 0;
  const endCell = () => {
    cells.push([from - start, at - start]);
    from = at + 1;
    state = 'cell';
    quoted = false;
    spaces = 0;
  };
  for (; at < b.length; at++) {
    const c = b[at];
    if (state === 'row' || state === 'cell') {
      if (isEnd(c)) break;
      if (c === COMMA) endCell();
      else if (!isBlank(c)) {
        state = 'begun';
        quoted = c === QUOTE;
      }
    } else if (state === 'begun') {
      if (quoted && c === QUOTE) state = 'might';
      else if (!quoted && c === COMMA) endCell();
      else if (!quoted && isEnd(c)) break;
    } else if (isEnd(c)) break;
    else if (c === COMMA) endCell();
    else if (isBlank(c)) spaces++;
    else if (c === QUOTE && spaces) spaces = 0;
    else {
      state = 'begun';
      spaces = 0;
    }
  }
  const open = state === 'begun' && quoted;
  if (state !== 'row') endCell();
  return {end: lineEnd(b, at), cells, open};
}

/* What a cell's bytes say, as libcsv unquotes them; blanks around it dropped. */
export function unquote(b) {
  let at = 0;
  while (at < b.length && isBlank(b[at])) at++;
  const quoted = b[at] === QUOTE;
  if (!quoted) return trim(b.subarray(at));
  const text = [];
  let might = false, spaces = 0;
  for (at++; at < b.length; at++) {
    const c = b[at];
    if (might && c === QUOTE && !spaces) might = false;
    else if (might && c === QUOTE) {
      spaces = 0;
      text.push(c);
    } else if (might && isBlank(c)) {
      spaces++;
      text.push(c);
    } else {
      text.push(c);
      might = !might && c === QUOTE;
      spaces = 0;
    }
  }
  return trim(Uint8Array.from(might ? text.slice(0, text.length - spaces - 1) : text));
}

function trim(b) {
  let from = 0, to = b.length;
  while (from < to && isSpace(b[from])) from++;
  while (to > from && isSpace(b[to - 1])) to--;
  return b.subarray(from, to);
}

/* Blanks before and behind a cell's text or quotes, and whether it is quoted. */
export function dress(b) {
  let from = 0, to = b.length;
  while (from < to && isBlank(b[from])) from++;
  while (to > from && isBlank(b[to - 1])) to--;
  return {before: b.subarray(0, from), behind: b.subarray(to), quoted: b[from] === QUOTE};
}

/* All of b (without a byte-order mark) as [{bytes, cells}] in order; cells null: a note. open: a quote is never closed. */
export function cut(b) {
  const pieces = [];
  let open = false;
  for (let at = 0; at < b.length;) {
    const end = lineEnd(b, at), line = b.subarray(at, end);
    if (isNote(line) || (at === 0 && isSeparator(line))) {
      pieces.push({bytes: line, cells: null});
      at = end;
      continue;
    }
    const row = rowAt(b, at);
    pieces.push({bytes: b.subarray(at, row.end), cells: row.cells});
    open = row.open;
    at = row.end;
  }
  return {pieces, open};
}
