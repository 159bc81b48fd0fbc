// A file of rows as a table that is typed in: columns in the program's order, the user's own behind them.
import {addRow, copyRow, removeRow, table, withHead} from '../model/job.js';
import {Cell} from './columns.jsx';
import {say} from './words.js';

/* file: its name in the job; kind: the file of the program's list that it is like; rare: columns that stand only where
 * the file has them; add: what the button says. */
export function Rows({state, file, kind = file, rare = [], add, children}) {
  if (!state.columns) return null;
  const t = table(state.job, file), told = state.columns.of(kind).map((f) => f.name);
  const names = [...told.filter((name) => !rare.includes(name) || t.column(name) >= 0), ...state.columns.own(kind, t)];
  const rows = Array.from({length: t.rows}, (_, row) => row), refused = state.refusals(file);
  const more = () => state.tryEdit((job) => (t.rows ? copyRow(job, file, t.rows - 1, {}) : addRow(withHead(job, file, told.filter((n) => !rare.includes(n))), file, -1, {})));
  return (
    <div class="sheet-of-rows">
      {t.rows > 0 && (
        <div class="wide" tabindex="0" role="region" aria-label={file}>
          <table class="rows">
            <thead><tr>{names.map((name) => <th scope="col" key={name}>{say(name)}<small>{state.columns.field(kind, name)?.says}</small></th>)}<td /></tr></thead>
            <tbody>
              {rows.map((row) => (
                <tr key={row} class={refused.some((r) => t.rowOfLine(r.line) === row) ? 'refused' : undefined}>
                  {names.map((name) => <td key={name}><Cell state={state} file={file} row={row} name={name} label={`${say(name)}, ${row + 1}`} bare /></td>)}
                  <td><button type="button" disabled={state.readOnly} aria-label={`${say('removeRow')} ${row + 1}`} onClick={() => state.tryEdit((job) => removeRow(job, file, row))}><span aria-hidden="true">✕</span></button></td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {refused.map((r) => <p key={r.text} class="danger" role="alert">{r.text}</p>)}
      <p class="row inset"><button type="button" disabled={state.readOnly} onClick={more}>{add}</button>{children}</p>
    </div>
  );
}
