// The house unrolled: facades from north round to north, each opening at true scale at the height of its sill.
import {openings} from '../model/job.js';
import {BLANK, Drawing} from './drawing.jsx';
import {say} from './words.js';

const COMPASS = ['north', 'northeast', 'east', 'southeast', 'south', 'southwest', 'west', 'northwest'];
const LETTERS = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'];

/* Openings by facade in the order of the compass; a facing that is no letter is shown as it was typed. */
function facades(state) {
  const t = openings(state.job), all = new Map();
  for (let row = 0; row < t.rows; row++) {
    const typed = t.cell(row, 'facing'), o = state.opening(row);
    const letter = LETTERS.indexOf(typed.toUpperCase());
    const word = COMPASS.indexOf(typed.toLowerCase());
    const at = letter >= 0 ? letter : word;
    const name = at >= 0 ? say(COMPASS[at]) : typed || '?';
    const turn = (o.fit ?? o.kept)?.facing_deg ?? (at >= 0 ? at * 45 : 360);
    if (!all.has(name)) all.set(name, {name, letter: LETTERS[at] ?? typed, turn, openings: []});
    all.get(name).openings.push(o);
  }
  return [...all.values()].sort((a, b) => a.turn - b.turn);
}

export function Strip({state}) {
  const sides = facades(state);
  const drawn = sides.flatMap((s) => s.openings).map((o) => (o.fit ?? o.kept)?.drawing).filter(Boolean);
  const wall = Math.max(2.44, ...drawn.map((d) => (d.sill_m ?? 0.8) + d.height_m + 0.2));
  return (
    <div class="strip" role="group" aria-label={say('strip')} style={`--wall:${wall}`}>
      {sides.map((side) => (
        <section class="facade" key={side.name} aria-label={side.name}>
          <h2>{side.name}</h2>
          <div class="wall">{side.openings.map((o) => <One key={o.row} o={o} state={state} />)}</div>
          <div class="tick" aria-hidden="true"><span>{side.letter}</span></div>
        </section>
      ))}
    </div>
  );
}

const MARKS = {fits: '', measure_again: '↺', escape_fails: '✕', not_yet: '?', unmeasured: '…', waiting: '…', kept: '⚿', unread: '!'};

function One({o, state}) {
  const known = (o.fit ?? o.kept)?.drawing, drawing = known ? {...known, kept: !o.fit} : BLANK;
  const sill = drawing.sill_m ?? 0.8, danger = ['measure_again', 'escape_fails', 'unread'].includes(o.state);
  const said = o.state === 'fits' ? o.fit.said.order : o.state === 'waiting' ? <span class="unseen">{say('waiting')}</span> : say(o.state);
  const safe = o.fit?.safety_glass ? say('safety') : '';
  return (
    <button type="button" class="one" onClick={() => state.go('opening', o.row)}>
      <span class={`hole is-${o.state}`} style={`--w:${drawing.width_m};--h:${drawing.height_m};--sill:${sill}`}>
        <Drawing drawing={drawing} id={`s${o.row}`} />
        {o.state === 'escape_fails' && <svg class="cross" viewBox="0 0 10 10" preserveAspectRatio="none" aria-hidden="true"><path d="M0 0L10 10M10 0L0 10" /></svg>}
      </span>
      <span class="name"><b>{o.tag}</b><span>{o.room}</span>{o.state === 'fits' && <span class="unseen">{say('fits')}</span>}<span class={danger ? 'danger' : 'soft'}>{MARKS[o.state] && <span aria-hidden="true">{MARKS[o.state]} </span>}{said}</span>{safe && <span class="soft"><span aria-hidden="true">◇ </span>{safe}</span>}</span>
    </button>
  );
}
