// A job: {id, name, files: Map name -> bytes}, never changed; every edit gives a new one that shares what stayed the same.
// Names are those of the job folder; one that begins with ../ is of a file beside it (a shared price list), where job.csv says.
import {Table, clean, nameOf} from './table.js';

export const FILES = ['job.csv', 'openings.csv', 'packages.csv'];

const NOTHING = new Uint8Array(0);
const tables = new WeakMap(); /* bytes -> Table: a row just blanked stays a row while it is worked on */

export function newJob(name, files) {
  return {id: newId(), name, files: new Map(files)};
}

/* crypto.randomUUID is not there on a page opened as a file in every browser. */
function newId() {
  return Array.from(crypto.getRandomValues(new Uint8Array(12)), (b) => b.toString(16).padStart(2, '0')).join('');
}

export function copyOf(job, name) {
  return newJob(name, job.files);
}

/* name, or "name 2", "name 3" ... that none of the names is, letters of either case. */
export function freeName(name, names) {
  const taken = new Set(names.map((n) => n.toLowerCase()));
  let free = name;
  for (let n = 2; taken.has(free.toLowerCase()); n++) free = `${name} ${n}`;
  return free;
}

/* run(argv, files) -> {status, out, err, files}: the engine, or the command under test. */
async function made(run, argv, name) {
  const {status, err, files} = await run(argv, new Map());
  if (status !== 0) throw new Error(err.trim());
  const found = FILES.map((f) => [f, [...files].find(([path]) => path.split('/').pop() === f)?.[1]]);
  return newJob(name, found.filter(([, bytes]) => bytes));
}

/* The files of `panewright new`: two openings to start from, or the whole example house. */
export const starter = (run, name = 'job') => made(run, ['new', '/out/job'], name);
export const example = (run, name = 'example') => made(run, ['new', '/out/job', '--example'], name);

// ---------------------------------------------------------------- tables

/* job null: it was left while a view of it still listens (a key, a size that changed): nothing stands in its files. */
export function table(job, file) {
  const bytes = job?.files.get(file) ?? NOTHING;
  if (!tables.has(bytes)) tables.set(bytes, Table.read(bytes));
  return tables.get(bytes);
}

export const openings = (job) => table(job, 'openings.csv');
export const packages = (job) => table(job, 'packages.csv');

function withTable(job, file, t) {
  if (t === table(job, file)) return job;
  const bytes = t.bytes();
  tables.set(bytes, t);
  return withFile(job, file, bytes);
}

export function withFile(job, file, bytes) {
  return {...job, files: new Map(job.files).set(file, bytes)};
}

export function withoutFile(job, file) {
  const files = new Map(job.files);
  return files.delete(file) ? {...job, files} : job;
}

/* A file with these columns and no row yet; one that has a header stays as it is. */
export function withHead(job, file, names) {
  const t = table(job, file);
  return t.head.length ? job : withTable(job, file, names.reduce((made, name) => made.withColumn(name), t));
}

/* Rows of another file (bytes of a CSV) below those that are there, each cell in the column of its name. */
export function addRows(job, file, bytes) {
  const more = Table.read(bytes);
  const names = more.head.filter((name) => name !== '');
  return Array.from({length: more.rows}, (_, r) => more.record(r))
    .reduce((made, row) => addRow(made, file, table(made, file).rows - 1, row), withHead(job, file, names));
}

/* A column that the file lacks is added at its end; text "" in one that is not there changes nothing. */
export function setCell(job, file, row, column, text) {
  const t = table(job, file);
  if (text === '' && t.column(column) < 0) return job;
  return withTable(job, file, t.with(row, column, text));
}

export const addRow = (job, file, after, texts) => withTable(job, file, table(job, file).withRow(after, texts));
export const moveRow = (job, file, row, to) => withTable(job, file, table(job, file).moved(row, to));
export const removeRow = (job, file, row) => withTable(job, file, table(job, file).withoutRow(row));

/* A row with the cells of another and some of its own, below it. */
export function copyRow(job, file, row, texts) {
  const t = table(job, file);
  const cells = Object.fromEntries(t.head.map((name, c) => [name, t.cell(row, c)]).filter(([name]) => name !== ''));
  return addRow(job, file, row, {...cells, ...texts});
}

// ---------------------------------------------------------------- items of job.csv (or of firm.csv, which has no dwellings)

const ITEMS = 'job.csv';

const caseless = (text) => clean(text).toLowerCase();

/* The row of an item for a dwelling: its own, and when `all` else the one that holds for all; -1 none. */
function itemRow(t, item, dwelling, all) {
  let row = -1;
  for (let r = 0; r < t.rows; r++) {
    const whose = t.cell(r, 'dwelling');
    if (nameOf(t.cell(r, 'item')) !== nameOf(item)) continue;
    if (caseless(whose) === caseless(dwelling)) return r;
    if (whose === '' && all && row < 0) row = r;
  }
  return row;
}

/* What the item says for a dwelling ("" is the whole job), "" where it says nothing. */
export function itemText(job, item, {dwelling = '', file = ITEMS} = {}) {
  const t = table(job, file), row = itemRow(t, item, dwelling, true);
  return row < 0 ? '' : t.cell(row, 'value');
}

/* Sets the value in the item's row; without one a row is added at the end. */
export function setItem(job, item, text, {dwelling = '', file = ITEMS} = {}) {
  const t = table(job, file), row = itemRow(t, item, dwelling, false);
  if (row >= 0) return setCell(job, file, row, 'value', text);
  if (itemText(job, item, {dwelling, file}) === text) return job;
  return addRow(withHead(job, file, ['item', 'value']), file, t.rows - 1, {item, value: text, ...(dwelling && {dwelling})});
}

/* Other items of the user's own and of the program, in the order of the file: {row, item, value, note, dwelling}. */
export function items(job) {
  const t = table(job, ITEMS);
  return Array.from({length: t.rows}, (_, row) => ({row, ...t.record(row)}));
}
