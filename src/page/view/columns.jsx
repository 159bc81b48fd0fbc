// All columns of a file (or items of job.csv), by what they are about, out of the program's own list; the user's own follow.
import {itemText, setCell, setItem, table} from '../model/job.js';
import {Field} from './field.jsx';
import {has, say} from './words.js';

/* The words that a column takes: a name for each; the facing by the compass, a package by those of the job. */
function choices(state, file, field) {
  if (field?.name === 'facing') return COMPASS;
  if (field?.name === 'package' && file !== 'packages.csv' && state.names.length) return state.names;
  return field?.words.length ? field.words.map((w) => w.word) : undefined;
}

const COMPASS = [['N', 'north'], ['NE', 'northeast'], ['E', 'east'], ['SE', 'southeast'], ['S', 'south'], ['SW', 'southwest'], ['W', 'west'], ['NW', 'northwest']];

/* One column of a row, or with row null one item. tag: whose default is told; bare: its name is for the ear alone. */
export function Cell({state, file, row, name, tag, label, bare}) {
  const field = state.columns?.field(fileOf(file), name), text = row === null ? itemText(state.job, name, {file}) : table(state.job, file).cell(row, name);
  const words = choices(state, file, field)?.map((w) => (Array.isArray(w) ? [w[0], say(w[1])] : [w, name === 'package' ? w : say(w)]));
  const put = (to) => state.tryEdit((job) => (row === null ? setItem(job, name, to, {file}) : setCell(job, file, row, name, to)), `${file} ${row} ${name}`);
  const grey = state.granted(file, name, tag) || (row === null && tag === undefined ? state.assumed(name) : '') || field?.blank || '';
  return <Field id={`${file}-${row ?? 'item'}-${name}`} label={label ?? say(name)} bare={bare} says={!label && !has(name) ? field?.says : ''} hint={field?.says} value={words && text ? state.columns.word(fileOf(file), name, text) : text} grey={grey} words={words} readOnly={state.readOnly} refused={state.refuses(file, row, name)} onText={put} />;
}

/* A price list beside the job reads as one in it. */
const fileOf = (file) => file.split('/').pop();

/* The parts of a file, folded; but: names that stand elsewhere; open: the part that is not folded. */
export function Columns({state, file, row, tag, but = [], open = ''}) {
  if (!state.columns) return null;
  const parts = state.columns.parts(file).map(({part, fields}) => [part, fields.map((f) => f.name).filter((n) => !but.includes(n))]).filter(([, names]) => names.length);
  const own = state.columns.own(file, table(state.job, file));
  return (
    <div class="columns">
      {[...parts, ...(own.length ? [['own', own]] : [])].map(([part, names]) => (
        <details key={part} open={part === open}>
          <summary>{has(`part ${part}`) ? say(`part ${part}`) : say(part)}</summary>
          <div class="fields">{names.map((name) => <Cell key={name} state={state} file={file} row={row} name={name} tag={tag} />)}</div>
        </details>
      ))}
    </div>
  );
}
