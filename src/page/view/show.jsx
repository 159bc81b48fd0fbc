// The same answer, one thought a screen, for the person across the table. Figures and savings are those that the program says.
import {useEffect, useRef, useState} from 'preact/hooks';
import {Drawing} from './drawing.jsx';
import {PageOf} from './page_of.jsx';
import {rangeAsked, readQuick, shown, startRange} from './sheet.js';
import {say} from './words.js';

export function Show({state}) {
  const [at, setAt] = useState(0), [pack, setPack] = useState(-1), [price, setPrice] = useState(false);
  const place = useRef(null);
  const json = state.compare?.json, said = json?.said, sheet = shown(state);
  useEffect(() => { readQuick(state); place.current?.focus(); }, []);
  useEffect(() => {
    if (sheet?.doc && !rangeAsked(state)) startRange(state);
  });
  const names = (said?.house.packages ?? []).map((_, i) => json.house.packages[i].package);
  const p = pack >= 0 && pack < names.length ? pack : names.length - 1;
  const screens = said && p >= 0 ? thoughts(state, json, said, p, sheet, price, setPrice) : [];
  const step = (by) => setAt((a) => Math.max(0, Math.min(screens.length - 1, a + by)));
  const onKeyDown = (e) => {
    if (e.key === 'Escape') state.set({showing: false});
    if (['ArrowRight', 'PageDown'].includes(e.key)) step(1);
    if (['ArrowLeft', 'PageUp'].includes(e.key)) step(-1);
  };
  const screen = screens[Math.min(at, screens.length - 1)];
  return (
    <div class="show" ref={place} tabIndex={-1} onKeyDown={onKeyDown}>
      <header>
        <div class="switch" role="group" aria-label={say('ofPackage')}>{names.map((n, i) => <button key={n} type="button" class="chip" aria-pressed={i === p} onClick={() => setPack(i)}>{n}</button>)}</div>
        <span class="grow" />
        {document.fullscreenEnabled && <button type="button" class="plain full" onClick={() => (document.fullscreenElement ? document.exitFullscreen() : place.current.requestFullscreen())}>{say('fullScreen')}</button>}
        <button type="button" class="close" onClick={() => state.set({showing: false})}>{say('close')}</button>
      </header>
      <main aria-live="polite" tabIndex={0}>{screen ?? <p class="soft">{state.compare && !state.compare.fresh ? state.compare.err : say('waiting')}</p>}</main>
      <footer>
        <span class="soft">{say('noRating')}</span>
        <span class="grow" />
        <button type="button" disabled={at === 0} onClick={() => step(-1)}>{say('before')}</button>
        <span>{say('page', String(Math.min(at, screens.length - 1) + 1), String(screens.length))}</span>
        <button type="button" class="strong next" disabled={at >= screens.length - 1} onClick={() => step(1)}>{say('next')}</button>
      </footer>
    </div>
  );
}

const Big = ({lead, text, children}) => <div class="thought">{lead && <p class="lead">{lead}</p>}<h1>{text}</h1>{children}</div>;

/* Two panes beside each other: there now, and with the package. */
function Pair({now, then, name, under = []}) {
  return (
    <div class="pair">
      <figure class="there"><div class="pane one-pane" /><figcaption><b>{now}</b><span>{say('thereNow')}</span>{under[0] && <span class="soft">{under[0]}</span>}</figcaption></figure>
      <figure class="would"><div class="pane two-panes" /><figcaption><b>{then}</b><span>{name}</span>{under[1] && <span class="soft">{under[1]}</span>}</figcaption></figure>
    </div>
  );
}

function thoughts(state, json, said, p, sheet, price, setPrice) {
  const name = json.house.packages[p].package, house = said.house, f = said.units.temperature;
  const worst = worstGlass(sheet, json);
  const o = said.openings[worst], room = json.openings[worst];
  const now = `${o.existing.inner_glass_design_night_c} ${f}`, then = `${o.packages[p].inner_glass_design_night_c} ${f}`;
  const drawing = state.fitted.find((x) => x.tag === room.tag)?.drawing;
  const part = (query) => [...(sheet?.doc?.querySelectorAll(query) ?? [])];
  const rows = part('#answer table.bands tbody tr');
  const bands = sheet?.ranged ? rows.slice(0, 2) : [];
  /* What is gained, what a year saves, what is given up for it, what it rests on. */
  return [
    <Big key="glass" lead={`${say('outsideAt', `${said.design_outdoor_c} ${f}`)}: ${room.tag} ${room.room}`} text={say('glassAt', now, then)}><Pair now={now} then={then} name={name} /></Big>,
    <Big key="sweat" lead={say('showSweat')} text={say('sweatsAbove', house.packages[p].sweat_above_rh)}><Pair now={house.existing.sweat_above_rh} then={house.packages[p].sweat_above_rh} name={name} under={[say('sweatsAbove', house.existing.sweat_above_rh), say('sweatsAbove', house.packages[p].sweat_above_rh)]} /></Big>,
    <Big key="heat" lead={say('showHeat')} text={say('leaks', house.existing.u_w_m2k, house.packages[p].u_w_m2k)}><p class="lead">{say('lower')} ({said.units.u})</p></Big>,
    <Big key="sun" lead={say('showSun')} text={say('sunIn', house.existing.shgc, house.packages[p].shgc)}><p class="lead">{say('lessSun')}</p></Big>,
    <div key="cost" class="thought">
      <h1 class="small">{say('showCost')}</h1>
      {bands.length ? <dl class="money">{bands.map((r, i) => <div key={i}><dt><PageOf nodes={[...r.cells[0].childNodes]} /></dt><dd><PageOf nodes={[...r.cells[p + 1].childNodes]} /></dd></div>)}</dl> : <p class="lead">{say('working')}{state.running?.percent != null && ` ${state.running.percent} %`}</p>}
      <p class="row"><button type="button" aria-expanded={price} onClick={() => setPrice(!price)}>{say(price ? 'hidePrice' : 'seePrice')}</button>{price && <b class="price">{house.packages[p].price}</b>}</p>
    </div>,
    <Big key="light" text={say('keepsLight', house.packages[p].light_kept, house.packages[p].glass_kept)} lead={say('showLight')}>{drawing && <div class="light"><Drawing drawing={drawing} id="show" label={say('drawingOf', room.tag)} /><span class="soft">{say('lost')}</span></div>}</Big>,
    <div key="rests" class="thought rests"><h1 class="small">{say('showRests')}</h1><PageOf nodes={part('#answer p.assumed')} /><PageOf nodes={part('#answer .alarm')} /></div>,
  ];
}

/* The opening whose glass the sheet speaks of; the first where it speaks of none. */
function worstGlass(sheet, json) {
  const key = sheet?.doc?.querySelector('#answer ul.answer [data-key$="existing.inner_glass_design_night_c"]')?.getAttribute('data-key');
  const at = Number(/openings\.(\d+)\./.exec(key ?? '')?.[1] ?? 0);
  return at < json.openings.length ? at : 0;
}
