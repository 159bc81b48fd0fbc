// Random numbers that are the same in every run (mulberry32, a public-domain generator) and random CSV texts.
export function random(seed) {
  let s = seed >>> 0;
  const next = () => {
    s = (s + 0x6D2B79F5) >>> 0;
    let t = Math.imul(s ^ (s >>> 15), s | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const below = (n) => Math.floor(next() * n);
  return {next, below, one: (list) => list[below(list.length)], chance: (p) => next() < p};
}

const WORDS = ['35 1/2', "4'-2 3/8\"", '902 mm', '40 +- 2', '1,380.00', 'a "quoted" word', 'two\nlines', 'é', '½', 'slider', '',
  '0 1/2', '12 .. 14 SEER', '#1', 'x, y', '中', '$300', '-', 'line\r\nend'];

const quote = (text) => `"${text.replaceAll('"', '""')}"`;

/* A sound CSV text as people and spreadsheets write it. */
export function soundText(r) {
  const end = r.one(['\n', '\r\n', '\r']), width = 1 + r.below(6), all = r.chance(0.2), pad = r.chance(0.2) ? ' ' : '';
  const cell = (text) => (all || /[",\r\n]/.test(text) ? quote(text) : pad + text);
  let text = r.chance(0.3) ? `# a note, "with" marks${end}` : '';
  text += Array.from({length: width}, (_, c) => cell(`col ${c}`)).join(',') + end;
  for (let n = r.below(8); n >= 0; n--) {
    if (r.chance(0.15)) text += r.one(['# between', '#', '', ',,,'.slice(0, width - 1)]) + end;
    const cells = Array.from({length: r.chance(0.2) ? 1 + r.below(width) : width}, () => cell(r.one(WORDS)));
    if (cells.every((c) => /^[\s"]*$/.test(c))) cells[0] = 'k';
    text += cells.join(',') + (n === 0 && r.chance(0.3) ? '' : end);
  }
  return text;
}

/* Any order of the marks that mean something. */
export function wildText(r) {
  const marks = ['"', '""', ',', ' ', '\t', '\n', '\r\n', '\r', '#', '# ', 'a', 'B c', '1/2', '\v', 'sep=,', 'é', '\u200b', '\ufeff', '\u0001'];
  return Array.from({length: r.below(40)}, () => r.one(marks)).join('');
}

/* Bytes that are UTF-8, nearly UTF-8 (too long, surrogates, past the end) or of a code page. */
export function wildBytes(r) {
  const bits = [[0xC3, 0xA9], [0xE0, 0x80, 0x80], [0xE0, 0xA0, 0x80], [0xED, 0xA0, 0x80], [0xED, 0x9F, 0xBF], [0xF0, 0x80, 0x80, 0x80], [0xF4, 0x90, 0x80, 0x80],
    [0xF0, 0x9F, 0x8F, 0xA0], [0xC1, 0x80], [0x80], [0x81], [0xE9], [0xFF], [0xF5, 0x80, 0x80, 0x80], [0xA0], [0x93], [0xEF, 0xBB, 0xBF]];
  const plain = [[44], [10], [97], [98], [34, 34], [32]], one = r.one(bits), mixed = r.chance(0.3);
  return Uint8Array.from(Array.from({length: 1 + r.below(12)}, () => (r.chance(0.3) ? (mixed ? r.one(bits) : one) : r.one(plain))).flat());
}
