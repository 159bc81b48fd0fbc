// Whole inches, feet and sixteenths for thumbs. Keys edit the text of the reading in hand; nothing is reckoned.
import {say} from './words.js';

const SIXTEENTHS = ['1/16', '1/8', '3/16', '1/4', '5/16', '3/8', '7/16', '1/2', '9/16', '5/8', '11/16', '3/4', '13/16', '7/8', '15/16'];
const DIGITS = [['7', '8', '9'], ['4', '5', '6'], ['1', '2', '3'], ['ft', '0', 'back'], ['mm', 'next']];

const FRACTION = /\s?\d+\/\d+$/;

/* The text after a key. fresh: the first key replaces what stood there. */
export function pressed(text, key, fresh) {
  const bare = text.replace(/\s*mm$/, '').replace(/"$/, '');
  if (key === 'back') return fresh ? '' : bare.replace(/(\s?\d+\/\d+|\s|['-]+|.)$/, '');
  if (key === 'mm') return /mm$/.test(text) ? bare : `${bare.replace(FRACTION, '')} mm`.trim();
  if (key === 'ft') return fresh || bare === '' || /'/.test(bare) ? text : `${bare.replace(FRACTION, '')}'-`;
  if (key.includes('/')) {
    const whole = fresh ? '' : bare.replace(FRACTION, '');
    return whole === '' ? key : /[-' ]$/.test(whole) ? `${whole}${key}` : `${whole} ${key}`;
  }
  if (fresh) return key;
  if (/mm$/.test(text)) return `${bare}${key} mm`;
  return FRACTION.test(bare) ? `${bare.replace(FRACTION, '')}${key}` : `${bare}${key}`;
}

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
