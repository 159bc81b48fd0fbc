// What a key of the keypad does to the text of the reading in hand; nothing is reckoned.
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
