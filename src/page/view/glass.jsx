// The packages as sentences; a word that is tapped opens its choices below the sentence.
import {useEffect, useRef, useState} from 'preact/hooks';
import {addRow, copyRow, itemText, packages, removeRow, setCell} from '../model/job.js';
import {Columns} from './columns.jsx';
import {Field} from './field.jsx';
import {COATS, GASES, TAPE, THICK, WIDE, facesOf, partsOf, textOfParts} from './glass_words.js';
import {Picture} from './picture.jsx';
import {Rows} from './rows.jsx';
import {say} from './words.js';

const FILE = 'packages.csv';
const SLOTS = ['spacer', 'frame_line', 'filling']; /* in the order of the sentence */

/* First words of the rows of one of the program's tables. */
function useTable(state, name, blank) {
  const [list, setList] = useState(blank);
  useEffect(() => {
    let there = true;
    state.ask(['tables', name, '--format', 'csv'], state.job, `tables ${name}`).then((told) => {
      if (there && told?.status === 0) setList([...new Set(told.out.split('\n').slice(1).map((l) => l.split(',')[0]).filter(Boolean))]);
    });
    return () => { there = false; };
  }, []);
  return list;
}

export function Glass({state}) {
  const t = packages(state.job), panes = useTable(state, 'panes', ['clear']), frames = useTable(state, 'frame_lines', ['vinyl']);
  const limits = state.compare?.json?.said?.code.limits, refused = state.compare && !state.compare.fresh ? state.compare.err : '';
  const add = () => {
    const name = (n) => (state.names.includes(`package ${n}`) ? name(n + 1) : `package ${n}`);
    state.tryEdit((job) => (t.rows ? copyRow(job, FILE, t.rows - 1, {package: name(t.rows + 1)}) : addRow(job, FILE, -1, {package: name(1), glass: '3mm clear / 12.7mm air / 3mm clear', spacer: 'metal', frame_line: 'vinyl'})));
  };
  return (
    <div class="glass">
      <h2 class="unseen">{say('glass')}</h2>
      <p class="soft lead">{say('tapWord')}{limits && <b> {say('codeHere', limits)}</b>}</p>
      {refused && <p class="verdict is-unread" role="alert"><b>{say('unread')}.</b> {refused}</p>}
      {Array.from({length: t.rows}, (_, row) => <Package key={row} state={state} row={row} panes={panes} frames={frames} />)}
      <p class="row"><button type="button" disabled={state.readOnly} onClick={add}>{say('addPackage')}</button></p>
      <Lists state={state} />
    </div>
  );
}

/* The price list in the folder, else the one beside it that job.csv names. */
function priceFile(job) {
  const shared = itemText(job, 'prices_file');
  return !job.files.has('prices.csv') && job.files.has(shared) ? shared : 'prices.csv';
}

/* Rows of the maker's labels and of the price list, and what they come to. */
function Lists({state}) {
  const said = state.compare?.json?.said.house.packages ?? [], file = priceFile(state.job);
  const prices = said.map((p, i) => [state.compare.json.house.packages[i].package, p.price]).filter(([, price]) => price);
  return (
    <div class="lists">
      <details>
        <summary>{say('labelList')}</summary>
        <p class="soft">{say('labelHow')}</p>
        <Rows state={state} file="labels.csv" rare={['rw', 'ctr', 'stc', 'oitc']} add={say('addLabel')} />
      </details>
      <details>
        <summary>{say('priceList')}</summary>
        <p class="soft">{say('priceHow')}</p>
        <Rows state={state} file={file} kind="prices.csv" add={say('addPrice')} />
        {prices.length > 0 && <p class={state.compare.of === state.job ? 'sums' : 'sums old'} role="status">{say('pricesNow')}: {prices.map(([name, price], i) => <span key={name}>{i > 0 && ', '}{name} <b>{price}</b></span>)}</p>}
      </details>
    </div>
  );
}

function Package({state, row, panes, frames}) {
  const t = packages(state.job), cell = (name) => t.cell(row, name);
  const [open, setOpen] = useState(''), opener = useRef(null);
  const put = (name, text) => state.tryEdit((job) => setCell(job, FILE, row, name, text), `package ${row} ${name}`);
  const glass = cell('glass'), parts = partsOf(glass);
  const putPart = (i, some) => put('glass', textOfParts(parts.map((p, k) => (k === i ? {...p, ...some} : p))));
  const word = (id, text) => <button type="button" class="word" aria-expanded={open === id} disabled={state.readOnly} onClick={(e) => { opener.current = e.currentTarget; setOpen(open === id ? '' : id); }}>{text}</button>;
  const close = () => {
    setOpen('');
    opener.current?.focus(); /* keys go on from the word */
  };
  const refused = state.refusal(FILE, t.line(row));
  return (
    <section class="sentence" aria-labelledby={`package-${row}`}>
      <h3 id={`package-${row}`}>{cell('package')}</h3>
      <p class="build">
        {parts ? parts.map((p, i) => (p.kind === 'pane' ? <PaneWords key={i} p={p} i={i} word={word} last={i === parts.length - 1} /> : <>{word(`wide${i}`, state.units === 'ip' ? (TAPE[p.wide] ?? p.wide) : p.wide)} {say('of')} {word(`gas${i}`, [say(p.gas), p.share].filter(Boolean).join(' '))}, </>))
          : <>{word('glass', glass || '–')}; </>}
        {say('build').split('%s').flatMap((text, i) => [text, SLOTS[i] && word(SLOTS[i], say(cell(SLOTS[i]) || '–'))])}
      </p>
      {refused && <p class="danger" role="alert">{refused}</p>}
      {open && <Choice state={state} open={open} parts={parts} putPart={putPart} put={put} cell={cell} panes={panes} frames={frames} row={row} onDone={close} />}
      <Figures state={state} row={row} />
      <details>
        <summary>{say('labels')}</summary>
        <Columns state={state} file={FILE} row={row} tag={cell('package')} />
        <button type="button" disabled={state.readOnly || t.rows < 2} onClick={() => state.tryEdit((job) => removeRow(job, FILE, row))}>{say('removePackage')}</button>
      </details>
      <details><summary>{say('pictureUnit')}</summary><Picture state={state} argv={['glass', glass, '--plot', '/out/unit.svg', ...state.say()]} file="/out/unit.svg" label={`${say('pictureUnit')}: ${glass}`} /></details>
    </section>
  );
}

/* "inner face (2)": as it lies in the unit, and its number from outdoors. */
const faceName = (i, face) => (facesOf(i).includes(face) ? `${say(face === facesOf(i)[0] ? 'outerFace' : 'innerFace')} (${face})` : face);

function PaneWords({p, i, word, last}) {
  return <>{word(`pane${i}`, `${p.thick} ${say(p.glass)}`)}{' '}{say('with')} {word(`coat${i}`, say(p.coat || 'plain'))}{p.coat && <> {say('onIts')} {word(`face${i}`, faceName(i, p.face))}</>}{last ? '; ' : ', '}</>;
}

/* The choices of one word, in place; whatever else the program reads can be typed. */
const wordsOf = (state, name) => state.columns?.field(FILE, name)?.words.map((w) => w.word) ?? [];

function Choice({state, open, parts, putPart, put, cell, panes, frames, row, onDone}) {
  const i = Number(/\d+$/.exec(open)?.[0] ?? -1), kind = open.replace(/\d+$/, ''), p = parts?.[i];
  const chip = (key, name, on, act) => <button key={key} type="button" class="chip" aria-pressed={on} onClick={act}>{name}</button>;
  const typed = (value, act) => <Field id={`typed-${row}`} label={say('typeIt')} value={value} onText={act} />;
  return (
    <div class="choice" role="group" aria-label={say({frame_line: 'frame', spacer: 'rim', filling: 'filling'}[kind] ?? 'glass')} onKeyDown={(e) => e.key === 'Escape' && onDone()}>
      {kind === 'pane' && p && <>
        {THICK.map((m) => chip(m, m, p.thick === m, () => putPart(i, {thick: m})))}
        {panes.map((g) => chip(g, say(g), p.glass === g, () => putPart(i, {glass: g})))}
      </>}
      {kind === 'coat' && p && <>
        {chip('', say('plain'), !p.coat, () => putPart(i, {coat: '', face: ''}))}
        {COATS.map((c) => chip(c, say(c), p.coat === c, () => putPart(i, {coat: c, face: p.face || facesOf(i)[i === 0 ? 1 : 0]})))}
      </>}
      {kind === 'face' && p && facesOf(i).map((face) => chip(face, faceName(i, face), p.face === face, () => putPart(i, {face})))}
      {kind === 'wide' && p && WIDE.map((m) => chip(m, `${TAPE[m]} (${m})`, p.wide === m, () => putPart(i, {wide: m})))}
      {kind === 'gas' && p && GASES.map(([gas, share]) => chip(gas, `${say(gas)} ${share}`, p.gas === gas && p.share === share, () => putPart(i, {gas, share})))}
      {kind === 'spacer' && wordsOf(state, 'spacer').map((s) => chip(s, say(s), cell('spacer') === s, () => put('spacer', s)))}
      {kind === 'frame_line' && frames.map((s) => chip(s, say(s), cell('frame_line') === s, () => put('frame_line', s)))}
      {kind === 'filling' && wordsOf(state, 'filling').map((s) => chip(s, say(s), cell('filling') === s, () => put('filling', s)))}
      {['spacer', 'frame_line', 'filling'].includes(kind) ? typed(cell(kind), (text) => put(kind, text)) : typed(cell('glass'), (text) => put('glass', text))}
      <button type="button" onClick={onDone}>{say('close')}</button>
    </div>
  );
}

const LINES = ['uvalue', 'shgc', 'vt', 'glassKept', 'lightKept', 'code', 'price'];

function Figures({state, row}) {
  const {said, house} = state.compare?.json ?? {}, of = house?.packages.length === packages(state.job).rows ? said.house.packages[row] : undefined;
  const now = state.compare?.of === state.job;
  const texts = of ? {uvalue: `${of.u_w_m2k} ${said.units.u}`, shgc: of.shgc, vt: of.vt, glassKept: of.glass_kept, lightKept: of.light_kept, code: said.code.packages[row], price: of.price} : {};
  /* before there is one, its room is left, so that nothing below moves under a finger */
  return (
    <dl class={`figures${now && state.compare.fresh ? '' : ' old'}`} aria-busy={!now}>
      {LINES.map((key) => <div key={key} class={`is-${key}`}><dt>{say(key)}</dt><dd>{texts[key] || (of || now ? '–' : '')}</dd></div>)}
    </dl>
  );
}
