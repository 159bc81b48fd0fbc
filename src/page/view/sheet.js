// The customer's pages as the program writes them: at once without ranges, and with them from the long run.
import {parsePage} from './adopt.js';
import {textOf} from './state.js';

/* What is asked for now: the job, and in which language, units and dwelling. */
const asked = (state) => ({of: state.job, by: ['--language', state.language, ...state.house()]});
const argv = (ask, more) => ['sheet', '/job', '--output', '/out/sheet.html', ...ask.by, ...more];

/* Whether it was asked as one would ask now. */
const current = (state, what) => what?.of === state.job && String(what.by) === String(asked(state).by);

const taken = (ask, told, ranged) => {
  const bytes = told.files.get('/out/sheet.html');
  return {...ask, ranged, doc: bytes ? parsePage(textOf(bytes)) : null, err: bytes ? '' : told.err.trim().replace(/^panewright: /, '')};
};

/* The sheet that may be shown: the one with ranges while it is of this job, else the quick one; null while there is none. */
export function shown(state) {
  return current(state, state.range) && state.range.doc ? state.range : current(state, state.quick) ? state.quick : null;
}

/* Whether the range of what is shown is there, refused, or on its way. */
export const rangeAsked = (state) => current(state, state.range) || current(state, state.running);

export async function readQuick(state) {
  const ask = asked(state);
  if (!ask.of || shown(state) || current(state, state.asking)) return;
  state.asking = ask;
  const told = await state.engine.edit(argv(ask, ['--no-range']), ask.of.files, 'sheet');
  if (told && ask.of === state.job) state.set({quick: taken(ask, told, false)});
}

export async function startRange(state) {
  const ask = asked(state), job = ask.of;
  state.running?.cancel();
  const run = state.engine.long(argv(ask, ['--threads', '1']), job.files, (p) => {
    if (state.running === mine) state.set({running: Object.assign(mine, p)});
  });
  const mine = {...ask, percent: null, cancel: () => {
    run.cancel();
    if (state.running === mine) state.set({running: null, cancelled: job});
  }};
  state.set({running: mine, cancelled: null});
  const told = await run.promise.catch(() => null);
  if (state.running === mine) state.set({running: null, ...(told && {range: taken(ask, told, true)})});
}
