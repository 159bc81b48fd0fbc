// What the files of a job may say: read from the program (`panewright words --format json`), so that the page offers what the
// readers take and nothing beside.
import {clean, nameOf} from './table.js';

export class Columns {
  #files;

  /* json: what `words` printed. */
  constructor(json) {
    this.#files = new Map(json.files.map((f) => [f.file, {items: f.items, fields: new Map(f.fields.map((x) => [x.name, x]))}]));
  }

  /* Files in the order in which one fills them in. */
  get files() {
    return [...this.#files.keys()];
  }

  /* All fields of a file in the program's order: {name, part, says, kind, required, blank, why, words, units, low, high, spread}. */
  of(file) {
    return [...(this.#files.get(file)?.fields.values() ?? [])];
  }

  /* The field of that name as the program compares names, or undefined: a column or item of the user's own. */
  field(file, name) {
    return this.#files.get(file)?.fields.get(nameOf(name));
  }

  /* Fields by part of the job, in order: [{part, fields}]. */
  parts(file) {
    const parts = new Map();
    for (const f of this.of(file)) parts.set(f.part, [...(parts.get(f.part) ?? []), f]);
    return [...parts].map(([part, fields]) => ({part, fields}));
  }

  /* Names in the file's table (columns, or items of a file of items) that the program does not know: the user's own. */
  own(file, table) {
    const names = this.#files.get(file)?.items ? Array.from({length: table.rows}, (_, r) => table.cell(r, 'item')) : table.head;
    return names.map(clean).filter((name) => name !== '' && !this.field(file, name));
  }

  /* The first of the words that mean the same as the cell's text, or the text. */
  word(file, name, text) {
    const want = nameOf(text), found = this.field(file, name)?.words.find((w) => w.word === want || w.also.includes(want));
    return found?.word ?? text;
  }
}

/* run(argv, files) -> {status, out, err}. */
export async function readColumns(run) {
  const {status, out, err} = await run(['words', '--format', 'json'], new Map());
  if (status !== 0) throw new Error(err.trim());
  return new Columns(JSON.parse(out));
}
