// Whole inches, feet and sixteenths for thumbs.
import {say} from './words.js';

const SIXTEENTHS = ['1/16', '1/8', '3/16', '1/4', '5/16', '3/8', '7/16', '1/2', '9/16', '5/8', '11/16', '3/4', '13/16', '7/8', '15/16'];
const DIGITS = [['7', '8', '9'], ['4', '5', '6'], ['1', '2', '3'], ['ft', '0', 'back'], ['mm', 'next']];

/* onKey(key); nextName: what the next reading is. The keys take no focus from the reading. */
export function Keypad({onKey, nextName, disabled}) {
  const hold = (e) => e.preventDefault();
  const key = (k, name = k, klass = '') => (
    <button key={k} type="button" class={`key ${klass}`} disabled={disabled} onPointerDown={hold} onMouseDown={hold} onClick={() => onKey(k)}>
      {k === 'back' ? <span aria-hidden="true">⌫</span> : k === 'next' ? <span>{say('next')}<span aria-hidden="true"> ›</span></span> : k}{name !== k && <span class="unseen"> {name}</span>}
    </button>
  );
  const names = {back: say('back'), ft: say('feet'), next: nextName};
  return (
    <div class="keypad" role="group" aria-label={say('keypad')}>
      {DIGITS.map((line, i) => (
        <>
          {line.map((k) => key(k, names[k] ?? k, k === 'next' ? 'strong wide' : ''))}
          {SIXTEENTHS.slice(3 * i, 3 * i + 3).map((k) => key(k, k, 'pale'))}
        </>
      ))}
    </div>
  );
}
