// The customer's pages as the program writes them: at once without ranges, and with them from the long run.
import {parsePage} from './adopt.js';
import {textOf} from './state.js';

const argv = (state, more) => ['sheet', '/job', '--output', '/out/sheet.html', '--language', state.language, ...state.house(), ...more];
const mark = (state) => `${state.language} ${state.units} ${state.dwelling}`;

const taken = (state, job, told, ranged) => {
  const bytes = told.files.get('/out/sheet.html');
  return {of: job, mark: mark(state), ranged, doc: bytes ? parsePage(textOf(bytes)) : null, err: bytes ? '' : textOf(told.err).trim().replace(/^panewright: /, '')};
};

/* The sheet that may be shown: the one with ranges while it is of this job, else the quick one; null while there is none. */
export function shown(state) {
  const ok = (s) => s && s.of === state.job && s.mark === mark(state);
  return ok(state.range) && state.range.doc ? state.range : ok(state.quick) ? state.quick : null;
}

export async function readQuick(state) {
  const job = state.job;
  if (!job || shown(state) || (state.asking === job && state.askingMark === mark(state))) return;
  Object.assign(state, {asking: job, askingMark: mark(state)});
  const told = await state.engine.edit(argv(state, ['--no-range']), job.files, 'sheet');
  if (told && job === state.job) state.set({quick: taken(state, job, told, false)});
}

export async function startRange(state) {
  const job = state.job;
  state.running?.cancel();
  const run = state.engine.long(argv(state, ['--threads', '1']), job.files, (p) => {
    if (state.running === mine) state.set({running: Object.assign(mine, p)});
  });
  const mine = {of: job, percent: null, cancel: () => {
    run.cancel();
    if (state.running === mine) state.set({running: null, cancelled: job});
  }};
  state.set({running: mine, cancelled: null});
  const told = await run.promise.catch(() => null);
  if (state.running === mine) state.set({running: null, ...(told && {range: taken(state, job, told, true)})});
}
