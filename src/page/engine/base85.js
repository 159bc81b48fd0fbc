// Bytes as text, five signs for four bytes (base64 has five and a third): the alphabet of Z85 (ZeroMQ RFC 32) with a
// comma for its <, so that nothing in it means anything to HTML inside a script. A last group of n bytes takes n + 1
// signs, as in Ascii85.
const SIGNS = '0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ.-:+=^!/*?&,>()[]{}@%$#';

export const toText = (bytes) => {
  const signs = [];
  for (let at = 0; at < bytes.length; at += 4) {
    const n = Math.min(4, bytes.length - at);
    let value = 0;
    for (let k = 0; k < 4; k++) value = value * 256 + (k < n ? bytes[at + k] : 0);
    let group = '';
    for (let k = 0; k < 5; k++, value = Math.floor(value / 85)) group = SIGNS[value % 85] + group;
    signs.push(group.slice(0, n + 1));
  }
  return signs.join('');
};

export const fromText = (text) => {
  const of = new Uint8Array(128);
  for (let k = 0; k < SIGNS.length; k++) of[SIGNS.charCodeAt(k)] = k;
  const whole = Math.floor(text.length / 5);
  const rest = text.length % 5;
  const bytes = new Uint8Array(whole * 4 + (rest ? rest - 1 : 0));
  const sign = (at) => (at < text.length ? of[text.charCodeAt(at)] : 84);
  for (let g = 0, at = 0; at < bytes.length; g += 5, at += 4) {
    const value = (((sign(g) * 85 + sign(g + 1)) * 85 + sign(g + 2)) * 85 + sign(g + 3)) * 85 + sign(g + 4);
    bytes[at] = value / 0x1000000;
    if (at + 1 < bytes.length) bytes[at + 1] = value >>> 16;
    if (at + 2 < bytes.length) bytes[at + 2] = value >>> 8;
    if (at + 3 < bytes.length) bytes[at + 3] = value;
  }
  return bytes;
};
