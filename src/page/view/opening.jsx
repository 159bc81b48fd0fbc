import {useEffect, useLayoutEffect, useRef, useState} from 'preact/hooks';
import {copyRow, moveRow, openings, removeRow, setCell} from '../model/job.js';
import {Columns} from './columns.jsx';
import {useDraft} from './draft.js';
import {BLANK, Drawing} from './drawing.jsx';
import {Keypad} from './keypad.jsx';
import {pressed} from './keys.js';
import {say} from './words.js';

/* In the order in which one measures; where on the drawing each is typed, in parts of its width and height from the lower left. */
const READINGS = [['width_bottom', 0.5, 0], ['width_middle', 0.5, 0.5], ['width_top', 0.5, 1], ['height_left', 0, 0.5], ['height_middle', 0.5, 0.25], ['height_right', 1, 0.5],
  ['diagonal_1', 0.76, 0.76], ['diagonal_2', 0.24, 0.76]];
const names = READINGS.map(([name]) => name);

export function Opening({state}) {
  const t = openings(state.job);
  if (t.rows === 0) return <p>{say('unmeasured')}</p>;
  return <One state={state} row={Math.min(state.row, t.rows - 1)} key={state.row} />;
}

function One({state, row}) {
  const t = openings(state.job), o = state.opening(row);
  const [now, setNow] = useState(() => names.find((n) => t.cell(row, n) === '') ?? names[0]);
  const [pad, setPad] = useState(true); /* on a small screen the keypad makes room when another column is touched */
  const fresh = useRef(true), fields = useRef({});
  const drawing = o.fit?.drawing ?? (o.kept ? {...o.kept.drawing, kept: true} : BLANK);
  const next = names[(names.indexOf(now) + 1) % names.length];

  useEffect(() => {
    if (matchMedia('(pointer: fine)').matches) fields.current[now]?.focus({preventScroll: true});
  }, []);

  const take = (name) => {
    fresh.current = true;
    setNow(name);
    fields.current[name]?.focus({preventScroll: true});
    fields.current[name]?.select();
  };
  const type = (name, text) => {
    fresh.current = false;
    state.tryEdit((job) => setCell(job, 'openings.csv', row, name, text), `${row} ${name}`);
  };
  const key = (k) => {
    if (k === 'next') take(next);
    else type(now, pressed(openings(state.job).cell(row, now), k, fresh.current));
  };
  const onKeyDown = (e) => {
    if (e.key !== 'Enter' || e.isComposing) return;
    e.preventDefault();
    take(e.shiftKey ? names[(names.indexOf(now) + names.length - 1) % names.length] : next);
  };

  return (
    <div class={pad ? 'opening' : 'opening no-pad'}>
      <div class="which">
        <button type="button" class="plain" disabled={row === 0} onClick={() => state.go('opening', row - 1)} aria-label={say('earlier')}><span aria-hidden="true">‹</span></button>
        <div class="what">
          <h2>{o.tag} {o.room}</h2>
          <span class="soft kind">{[[say(t.cell(row, 'operator') || 'operator'), t.cell(row, 'config')].filter(Boolean).join(' '), t.cell(row, 'facing')].filter(Boolean).join(', ')}</span>
        </div>
        <span class="soft">{row + 1}/{t.rows}</span>
        <button type="button" class="plain" disabled={row === t.rows - 1} onClick={() => state.go('opening', row + 1)} aria-label={say('later')}><span aria-hidden="true">›</span></button>
      </div>
      <div class="board">
        <Board drawing={drawing} now={now} label={say('drawingOf', o.tag)} row={row}>
          {READINGS.map(([name, x, y]) => (
            <Reading key={name} name={name} place={`--x:${x};--y:${y}`} now={name === now} value={t.cell(row, name)} readOnly={state.readOnly} hold={(e) => { fields.current[name] = e; }}
              onFocus={() => { setPad(true); if (name !== now) { fresh.current = true; setNow(name); } }} onKeyDown={onKeyDown} onText={(text) => type(name, text)} />
          ))}
        </Board>
      </div>
      <div class="under" onPointerDownCapture={(e) => e.target.closest('input[type=text], select, summary') && setPad(false)}>
        <Verdict o={o} state={state} />
        <Cuts state={state} o={o} row={row} />
        <Columns state={state} file="openings.csv" row={row} tag={o.tag} but={[...names, 'fins_cut', 'sill_lip_cut']} open="opening" />
        <p class="row">
          <button type="button" disabled={state.readOnly} onClick={() => { state.tryEdit((job) => copyRow(job, 'openings.csv', row, {tag: freeTag(t, o.tag)})); state.go('opening', row + 1); }}>{say('copyOpening')}</button>
          {[['moveUp', -1], ['moveDown', 1]].map(([word, by]) => (
            <button key={word} type="button" disabled={state.readOnly || row + by < 0 || row + by >= t.rows} onClick={() => { state.tryEdit((job) => moveRow(job, 'openings.csv', row, row + by)); state.go('opening', row + by); }}>{say(word)}</button>
          ))}
          <button type="button" disabled={state.readOnly || t.rows < 2} onClick={() => { state.tryEdit((job) => removeRow(job, 'openings.csv', row)); state.go('house'); }}>{say('removeOpening')}</button>
        </p>
      </div>
      <Keypad onKey={key} nextName={say(next)} disabled={state.readOnly} />
    </div>
  );
}

function Reading({name, place, now, value, readOnly, hold, onFocus, onKeyDown, onText}) {
  const [shown, setDraft] = useDraft(value);
  return (
    <input ref={hold} class={`reading${now ? ' now' : ''}${value ? '' : ' empty'}`} style={place} type="text" inputMode="none" aria-label={say(name)} placeholder={say(name).split(' ')[0]} value={shown} readOnly={readOnly}
      autocomplete="off" spellcheck={false} onFocus={(e) => { onFocus(); e.currentTarget.select(); }} onKeyDown={onKeyDown} onInput={(e) => { setDraft(e.currentTarget.value); onText(e.currentTarget.value.trim()); }} />
  );
}

function freeTag(t, tag) {
  const tags = new Set(Array.from({length: t.rows}, (_, r) => t.cell(r, 'tag').toLowerCase()));
  let n = 2;
  while (tags.has(`${tag}-${n}`.toLowerCase())) n++;
  return `${tag}-${n}`;
}

/* The drawing as large as its place lets it be, with the readings over it. */
function Board({drawing: d, now, label, row, children}) {
  const place = useRef(null);
  const [room, setRoom] = useState([320, 320]);
  useLayoutEffect(() => {
    const look = new ResizeObserver(([e]) => setRoom([e.contentRect.width, e.contentRect.height]));
    look.observe(place.current);
    return () => look.disconnect();
  }, []);
  const scale = Math.max(1, Math.min((room[0] - 96) / d.width_m, (room[1] - 52) / d.height_m));
  return (
    <div class="place" ref={place}>
      <div class={`sheet${d.blank ? ' blank' : ''}`} style={`width:${scale * d.width_m}px;height:${scale * d.height_m}px`}>
        <Drawing drawing={d} full now={now} label={label} id={`o${row}`} />
        {children}
      </div>
    </div>
  );
}

function Verdict({o, state}) {
  const down = !o.refused && state.fit && !state.fit.fresh && state.fit.status !== 0 ? state.fit.err : '';
  const rest = (o.fit?.said.why ?? []).slice(1);
  return (
    <div class={`verdict is-${o.state}`} role="status" aria-live="polite">
      <p>{o.state === 'waiting' ? say('waiting') : o.state === 'unread' || o.state === 'unmeasured' || o.state === 'kept' ? <><b>{say(o.state)}.</b> {o.text}</> : o.text}</p>
      {down && <p>{!state.broke && <b>{say('elsewhere')} </b>}{down}</p>}
      {rest.length > 0 && <ul>{rest.map((w) => <li key={w}>{w}</li>)}</ul>}
    </div>
  );
}

const FINS = [['0', 'finsLeft'], ['1', 'one'], ['2', 'both'], ['cannot', 'cannot']], LIPS = [['no', 'lipLeft'], ['yes', 'lipCut'], ['cannot', 'cannot']];

/* What comes off, and what each buys. */
function Cuts({state, o, row}) {
  return (
    <div class="cuts">
      <Switch state={state} row={row} column="fins_cut" title={say('fins')} choices={FINS} blank="0" gain={o.fit && (o.fit.said.fins ? say('cutting', o.fit.said.fins) : say('noFins'))} />
      <Switch state={state} row={row} column="sill_lip_cut" title={say('lip')} choices={LIPS} blank="no" gain={o.fit && (o.fit.said.lip ? say('cutting', o.fit.said.lip) : say('noLip'))} />
    </div>
  );
}

function Switch({state, row, column, title, choices, blank, gain}) {
  const value = openings(state.job).cell(row, column) || blank, name = `${column}-${row}`;
  return (
    <fieldset class="switch">
      <legend>{title} {gain && <span class="soft">{gain}</span>}</legend>
      {choices.map(([text, word]) => (
        <label key={text}><input type="radio" name={name} value={text} checked={value === text} disabled={state.readOnly} onChange={() => state.tryEdit((job) => setCell(job, 'openings.csv', row, column, text))} /><span>{say(word)}</span></label>
      ))}
    </fieldset>
  );
}
