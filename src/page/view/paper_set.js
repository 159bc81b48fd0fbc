// Which papers there are, what each is asked by, and those with ranges, made in the long worker.
import {packages, withFile} from '../model/job.js';
import {textOf} from './state.js';

/* In the order of the work. */
export const PAPERS = ['measure', 'customer', 'offer', 'order', 'change', 'crew', 'materials', 'handover', 'worksheet'];
export const RANGED = ['customer', 'offer', 'handover'];
/* Files of the job that two of them need: the order that was sent, the program. */
export const SENT = 'order_sent.csv', PROGRAM = 'program.csv';
const PROMISE = 'promise.csv'; /* what the program notes of the ranges that the customer reads */
const NEEDS = {change: SENT, worksheet: PROGRAM};
const FOR_ALL = ['measure', 'customer', 'offer']; /* packages */

/* The file that the job lacks for a paper, undefined where it lacks none. */
export const needOf = (job, paper) => (NEEDS[paper] && !job.files.has(NEEDS[paper]) ? NEEDS[paper] : undefined);

/* ask: {language, page, pack, zone}. */
export function argvOf(state, ask, paper, ranges) {
  return ['papers', '/job', '--output', '/out/papers', '--only', paper, '--html-only', '--paper', ask.page, '--language', ask.language, ...state.house(),
    ...(packages(state.job).rows && !FOR_ALL.includes(paper) ? ['--package', ask.pack] : []),
    ...(paper === 'change' ? ['--before', `/job/${SENT}`] : []),
    ...(paper === 'worksheet' ? ['--program', `/job/${PROGRAM}`, ...(ask.zone ? ['--zone', ask.zone] : [])] : []),
    ...(RANGED.includes(paper) ? (ranges ? ['--threads', '1'] : ['--no-range']) : [])];
}

export const keyOf = (state, ask) => [...Object.values(ask), ...state.house()].join('\n');

/* {html, csv: [[name, bytes]], err} of what the program wrote. */
export function paperNow(told) {
  const out = [...told.files].filter(([f]) => f.startsWith('/out/')), html = out.find(([f]) => f.endsWith('.html')), csv = out.filter(([f]) => f.endsWith('.csv'));
  return {html: html ? textOf(html[1]) : '', csv: csv.map(([f, bytes]) => [f.split('/').pop(), bytes]), err: told.err.trim().replaceAll('panewright: ', '')};
}

/* Whether it was asked as one would ask now. */
const current = (state, ask, paper, had) => had?.of === state.job && had.by === String(argvOf(state, ask, paper, true));

/* Whether the paper's ranges are there, or on their way. */
export const isRanged = (state, ask, paper) => current(state, ask, paper, state.ranged.get(paper));
export const isRanging = (state, ask, paper) => state.ranging?.paper === paper && current(state, ask, paper, state.ranging);

export async function rangePaper(state, ask, paper) {
  const job = state.job, argv = argvOf(state, ask, paper, true);
  state.ranging?.cancel();
  const run = state.engine.long(argv, job.files, (p) => {
    if (state.ranging === mine) state.set({ranging: Object.assign(mine, p)});
  });
  const mine = {of: job, by: String(argv), paper, percent: null, cancel: () => {
    run.cancel();
    if (state.ranging === mine) state.set({ranging: null});
  }};
  state.set({ranging: mine});
  const told = await run.promise.catch(() => null);
  if (told) {
    const noted = told.files.get(`/job/${PROMISE}`), now = state.job === job;
    if (now && noted) state.edit(withFile(job, PROMISE, noted));
    state.ranged.set(paper, {of: now ? state.job : job, by: mine.by, paper: paperNow(told)});
  }
  if (state.ranging === mine) state.set({ranging: null});
}
