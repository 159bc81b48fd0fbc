// An opening to scale out of the program's own outlines (JSON key drawing, metres, y upward). Nothing is computed here but where
// the paper lies.
const path = (outline, height) => `${outline.map(([x, y], i) => `${i ? 'L' : 'M'}${x} ${height - y}`).join('')}Z`;

/* What of a drawing the strip shows and what the large one adds (full). now: the reading whose tape is in hand. */
export function Drawing({drawing: d, full = false, now = '', label, id}) {
  const h = d.height_m, of = (outline) => path(outline, h);
  const edge = full ? 0.05 : 0.02;
  return (
    <svg class="drawing" viewBox={`${-edge} ${-edge} ${d.width_m + 2 * edge} ${h + 2 * edge}`} role={label ? 'img' : undefined} aria-label={label} aria-hidden={label ? undefined : 'true'} preserveAspectRatio="xMidYMid meet">
      <defs>
        <pattern id={`lost-${id}`} width="0.022" height="0.022" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="0.022" height="0.022" class="lost-ground" /><path d="M0 0V0.022" class="lost-line" /></pattern>
      </defs>
      <path d={of(d.old)} class="old-frame" />
      {d.old_lites.map((l, i) => <path key={i} d={of(l.outline)} class="old-lite" fill={d.kept ? undefined : `url(#lost-${id})`} />)}
      {!d.kept && <path d={of(d.order)} class="new-frame" />}
      {!d.kept && d.lites.map((l, i) => <path key={i} d={of(l.outline)} class={l.moving ? 'lite moving' : 'lite'} />)}
      {full && [...d.fins, ...d.lip].map((p, i) => <path key={i} d={of(p.outline)} class={p.cut ? 'part cut' : 'part'} />)}
      {full && d.tapes.map((t) => <line key={t.reading} x1={t.from[0]} y1={h - t.from[1]} x2={t.to[0]} y2={h - t.to[1]} class={t.reading === now ? 'tape now' : 'tape'} />)}
    </svg>
  );
}

/* An opening that nothing is known of yet: its place alone. */
export const BLANK = {
  width_m: 1, height_m: 1, sill_m: null, blank: true, kept: true, old: [[0, 0], [1, 0], [1, 1], [0, 1]], order: [], old_lites: [], lites: [], fins: [], lip: [],
  tapes: [['width_bottom', 0, 0.08, 1, 0.08], ['width_middle', 0, 0.5, 1, 0.5], ['width_top', 0, 0.92, 1, 0.92], ['height_left', 0.08, 0, 0.08, 1],
    ['height_middle', 0.5, 0, 0.5, 1], ['height_right', 0.92, 0, 0.92, 1], ['diagonal_1', 0, 0, 1, 1], ['diagonal_2', 0, 1, 1, 0]]
    .map(([reading, a, b, c, e]) => ({reading, from: [a, b], to: [c, e]})),
};
