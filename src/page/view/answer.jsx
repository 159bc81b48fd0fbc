// A page to read, out of the customer's sheet; then what if, and why.
import {useEffect, useMemo, useState} from 'preact/hooks';
import {openings, setCell} from '../model/job.js';
import {PageOf} from './page_of.jsx';
import {rangeAsked, readQuick, shown, startRange} from './sheet.js';
import {say} from './words.js';

export function Answer({state}) {
  const sheet = shown(state);
  useEffect(() => { readQuick(state); });
  useEffect(() => { /* the range follows by itself when the pages have been read for a while */
    if (!sheet?.doc || rangeAsked(state) || state.cancelled === state.job) return undefined;
    const wait = setTimeout(() => startRange(state), 1200);
    return () => clearTimeout(wait);
  });
  const first = useMemo(() => firstOf(sheet?.doc), [sheet?.doc]), taken = useMemo(() => new Set(first), [first]);
  const parts = sheet?.doc ? [...sheet.doc.querySelectorAll('section.part')] : [];
  return (
    <div class="answer">
      <Claims state={state} />
      <HowSure state={state} sheet={sheet} />
      {!sheet && <p class="soft">{say('waiting')}</p>}
      {sheet?.err && <p class="verdict is-unread" role="alert">{sheet.err}</p>}
      {parts[0] && <PageOf nodes={parts.slice(0, 1)} />}
      {first.length > 0 && <PageOf nodes={first} />}
      {parts.slice(1).map((part) => <Fold key={part.id} part={part} without={taken} />)}
      <WhatIf state={state} />
      <Why state={state} />
    </div>
  );
}

/* The answer in one line for each package, as it may be said. */
function Claims({state}) {
  const json = state.compare?.of === state.job ? state.compare.json : null;
  if (!json?.said?.claims || json.house.packages.length !== json.said.claims.length) return null;
  return <ul class="claims">{json.said.claims.map((claim, i) => <li key={claim + i}><b>{json.house.packages[i].package}</b>: {claim}</li>)}</ul>;
}

/* Which windows first: the table of the sheet with its heading, taken out of the year's part since it is asked first. */
function firstOf(doc) {
  const nodes = [doc?.querySelector('table.first')?.parentElement];
  while (nodes[0] && nodes[0].localName !== 'h3') nodes.unshift(nodes[0].previousElementSibling);
  return nodes.filter(Boolean);
}

function Fold({part, without}) {
  const [open, setOpen] = useState(false);
  return (
    <details onToggle={(e) => setOpen(e.currentTarget.open)}>
      <summary>{part.querySelector('h2')?.textContent}</summary>
      {open && <PageOf nodes={[part]} without={without} />}
    </details>
  );
}

function HowSure({state, sheet}) {
  const r = state.running;
  return (
    <div class="sure" role="status">
      <h2>{say('sure')}</h2>
      {r ? <>
        <span>{say('working')}{r.percent != null && ` ${r.percent} %`}</span>
        <progress max="100" value={r.percent ?? undefined} aria-label={say('working')} />
        <button type="button" onClick={() => r.cancel()}>{say('cancel')}</button>
      </> : sheet?.ranged ? <span>{say('ranged')}</span> : <>
        {state.range && <span>{say('stale')}</span>}
        {state.range?.of === state.job && state.range.err && <span class="danger">{state.range.err}</span>}
        <button type="button" disabled={!sheet?.doc} onClick={() => startRange(state)}>{say('rangeAgain')}</button>
      </>}
    </div>
  );
}

/* Another job beside this one, in which some openings stay or get another package. */
function WhatIf({state}) {
  const [changed, setChanged] = useState(new Map()), [said, setSaid] = useState(null);
  const t = openings(state.job);
  const other = [...changed].reduce((job, [row, what]) => (what === 'keep' ? setCell(job, 'openings.csv', row, 'action', 'keep') : setCell(setCell(job, 'openings.csv', row, 'action', ''), 'openings.csv', row, 'package', what)), state.job);
  useEffect(() => {
    if (changed.size === 0) return setSaid(null);
    let there = true;
    const ask = (job, lane) => state.ask(['compare', '/job', '--format', 'json', ...state.house()], job, lane);
    Promise.all([ask(state.job, 'if now'), ask(other, 'if so')]).then(([now, so]) => {
      if (!there || !now || !so) return;
      const of = (told) => (told.status === 0 ? JSON.parse(told.out).said.house.packages : null);
      setSaid({now: of(now), so: of(so), err: so.err});
    });
    return () => { there = false; };
  }, [changed, state.job, state.units, state.dwelling]);
  const choose = (row, text) => {
    const next = new Map(changed);
    if (text === '') next.delete(row);
    else next.set(row, text);
    setChanged(next);
  };
  const lines = [['savedYear', 'saving'], ['price', 'price'], ['uvalue', 'u_w_m2k']];
  return (
    <details class="if">
      <summary>{say('whatIf')}</summary>
      <p class="soft">{say('whatIfHow')}</p>
      <div class="fields">
        {Array.from({length: t.rows}, (_, row) => (
          <div class="field" key={row}>
            <label for={`if-${row}`}>{t.cell(row, 'tag')} {t.cell(row, 'room')}</label>
            <select id={`if-${row}`} value={changed.get(row) ?? ''} onChange={(e) => choose(row, e.currentTarget.value)}>
              <option value="">{say('asNow')}</option>
              <option value="keep">{say('leaveOut')}</option>
              {state.names.map((n) => <option key={n} value={n}>{n}</option>)}
            </select>
          </div>
        ))}
      </div>
      {said && (said.so && said.now ? (
        <div class="wide" tabindex="0" role="region" aria-label={say('whatIf')}><table>
          <thead><tr><th scope="col">{say('whatIf')}</th>{state.names.map((n) => <th scope="col" key={n}>{n}</th>)}</tr></thead>
          <tbody>{lines.flatMap(([word, key]) => [['nowCol', said.now], ['ifCol', said.so]].map(([which, list]) => <tr key={word + which}><th scope="row">{say(word)}, {say(which)}</th>{list.map((p, i) => <td key={i}>{p[key]}</td>)}</tr>))}</tbody>
        </table></div>
      ) : <p class="danger" role="alert">{said.err}</p>)}
      {changed.size > 0 && <p class="row"><button type="button" class="strong" disabled={state.readOnly} onClick={() => { state.edit(other); setChanged(new Map()); }}>{say('keepThis')}</button><button type="button" onClick={() => setChanged(new Map())}>{say('dropThis')}</button></p>}
    </details>
  );
}

const FIGURES = ['u', 'shgc', 'heating', 'cooling', 'bill', 'saving', 'payback', 'worth', 'sound', 'tightness', 'airing', 'coverings', 'ducts'];
const NAMES = {u: 'uvalue', bill: 'bill_year'};

/* The chain of a figure, as the program explains it. */
function Why({state}) {
  return (
    <section class="why" aria-labelledby="why">
      <h2 id="why">{say('why')}</h2>
      {FIGURES.map((f) => <Chain key={f} state={state} figure={f} />)}
    </section>
  );
}

function Chain({state, figure}) {
  const [open, setOpen] = useState(false), [text, setText] = useState('');
  useEffect(() => {
    if (!open) return undefined;
    let there = true;
    state.ask(['compare', '/job', '--explain', figure, ...state.house()], state.job, `explain ${figure}`).then((told) => there && told && setText(told.status === 0 ? told.out : told.err));
    return () => { there = false; };
  }, [open, state.job, state.units, state.dwelling]);
  return (
    <details onToggle={(e) => setOpen(e.currentTarget.open)}>
      <summary>{say(NAMES[figure] ?? figure)}</summary>
      {open && <pre tabindex="0" role="region" aria-label={say(NAMES[figure] ?? figure)}>{text || say('waiting')}</pre>}
    </details>
  );
}
