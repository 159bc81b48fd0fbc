// A build-up as a sentence of words that can be changed one by one. Panes and gaps are cut out of the text and put back as text; a
// build-up that is written otherwise stays one piece.
const PANE = /^(\S+?\s?(?:mm|in)|\d+\/\d+ in)\s+([A-Za-z_]\w*)(?:\s+coat\s+(\w+)@(\d))?$/;
const GAP = /^(\S+?\s?(?:mm|in)|\d+\/\d+ in)\s+([A-Za-z]\w*)(?:\s+(\d+(?:\.\d+)?\s?%))?$/;

/* [{kind: 'pane', thick, glass, coat, face} or {kind: 'gap', wide, gas, share}] in turn, null when it is written otherwise. */
export function partsOf(text) {
  const cut = text.split(/\s+\/\s+/);
  const read = cut.map((t, i) => {
    const m = (i % 2 ? GAP : PANE).exec(t.trim());
    if (!m) return null;
    return i % 2 ? {kind: 'gap', wide: m[1], gas: m[2], share: m[3] ?? ''} : {kind: 'pane', thick: m[1], glass: m[2], coat: m[3] ?? '', face: m[4] ?? ''};
  });
  return read.every(Boolean) && read.length % 2 === 1 ? read : null;
}

export function textOfParts(parts) {
  return parts.map((p) => (p.kind === 'gap' ? [p.wide, p.gas, p.share].filter(Boolean).join(' ') : `${p.thick} ${p.glass}${p.coat ? ` coat ${p.coat}@${p.face}` : ''}`)).join(' / ');
}

/* The faces of pane i of a unit, numbered from outdoors. */
export const facesOf = (i) => [String(i + 1), String(i + 2)];

/* What a thickness is called on the tape; others stand as they are written. */
export const TAPE = {'3mm': '1/8 in', '6.35mm': '1/4 in', '9.5mm': '3/8 in', '12.7mm': '1/2 in', '16mm': '5/8 in', '19mm': '3/4 in'};
export const THICK = ['2.5mm', '3mm', '4mm', '5mm', '6mm'], WIDE = ['6.35mm', '9.5mm', '12.7mm', '16mm', '19mm'];
export const GASES = [['air', ''], ['argon', '90%'], ['krypton', '90%']];
export const COATS = ['pyr20', 'pyr15', 'ag1_high', 'ag1', 'ag2', 'ag3'];
