import {addRow, openings} from '../model/job.js';
import {Bills} from './bills.jsx';
import {Choices} from './choices.jsx';
import {Cell, Columns} from './columns.jsx';
import {Files} from './files.jsx';
import {Place} from './place.jsx';
import {Strip} from './strip.jsx';
import {say} from './words.js';

/* The facts that are asked first; every other item of the file stands folded below. */
const FIRST = ['job', 'customer', 'floor_area', 'year_built', 'storeys', 'heating', 'heating_fuel', 'heating_efficiency', 'cooling', 'cooling_efficiency', 'heat_set', 'cool_set',
  'price_electricity', 'price_gas', 'bill_year'];
const LABELS = {job: 'jobName', customer: 'customerItem'};

export function House({state}) {
  const down = (told) => (told && !told.fresh && told.status !== 0 ? told.err : '');
  const refused = down(state.fit) || down(state.compare);
  const add = () => {
    const t = openings(state.job), last = t.rows - 1;
    const facing = last >= 0 ? t.cell(last, 'facing') : 'N';
    let n = t.rows + 1;
    while (Array.from({length: t.rows}, (_, r) => t.cell(r, 'tag')).includes(String(n))) n++;
    state.tryEdit((job) => addRow(job, 'openings.csv', last, {tag: String(n), quantity: '1', facing, operator: 'slider', config: 'XO'}));
    state.go('opening', openings(state.job).rows - 1);
  };
  return (
    <>
      {refused && <p class="verdict is-unread" role="alert"><b>{say('unread')}.</b> {refused}</p>}
      <Strip state={state} />
      <p class="row"><button type="button" class="strong" disabled={state.readOnly} onClick={add}>{say('addOpening')}</button></p>
      <Facts state={state} />
      <p class="row phone-only"><Choices state={state} /></p>
    </>
  );
}

function Facts({state}) {
  const assumed = state.compare?.json?.assumed ?? [];
  return (
    <section class="facts" aria-labelledby="facts">
      <h2 id="facts">{say('facts')} <span class="soft">{say('grey')}</span></h2>
      <Place state={state} />
      <div class="fields">{FIRST.map((item) => <Cell key={item} state={state} file="job.csv" row={null} name={item} label={say(LABELS[item] ?? item)} />)}</div>
      {state.compare?.json?.climate && <p class="soft">{say('taken', state.compare.json.climate)}</p>}
      <ul class="soft assumed">{assumed.map((a) => <li key={a.item}><b>{a.item}</b>: {a.value}</li>)}</ul>
      <details><summary>{say('moreItems')}</summary><Columns state={state} file="job.csv" row={null} but={[...FIRST, 'climate']} /></details>
      <Bills state={state} />
      <Files state={state} />
      <details><summary>{say('firmFile')}</summary><p class="soft">{say('firmHow')}</p><Columns state={state} file="firm.csv" row={null} /></details>
    </section>
  );
}
