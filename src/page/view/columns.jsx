// All columns of openings.csv, folded by what they are about; columns of the user's own stay reachable, too.
import {openings, setCell} from '../model/job.js';
import {Field} from './field.jsx';
import {FACINGS} from './strip.jsx';
import {say} from './words.js';

const KINDS = ['fixed', 'slider', 'single_hung', 'double_hung', 'casement', 'awning', 'hopper', 'flanker', 'sliding_door', 'hinged_door', 'jalousie'];
const YES = ['yes', 'no'];
const GROUPS = [
  ['what', ['tag', 'room', 'quantity', 'facing', 'operator', 'config', 'operator_insert', 'use', 'note']],
  ['around', ['sill_height', 'drop_outside', 'overhang_depth', 'overhang_gap', 'reveal_depth', 'grade_floor', 'near_door', 'near_water', 'near_walk', 'shade', 'screen', 'sidelite', 'official_word']],
  ['oldGroup', ['existing_frame', 'existing_glass', 'existing_section', 'fin_width', 'sill_lip', 'frame_face', 'sash_face', 'meeting_face', 'retained_face', 'retained_cover', 'glass_share']],
  ['orderGroup', ['package', 'glass', 'tempered', 'pattern', 'tint', 'grilles', 'grille_pattern', 'grille_bar', 'pet_panel', 'colour', 'hinge', 'maker_note', 'price', 'price_options']],
  ['planGroup', ['action', 'phase', 'conditioned', 'dwelling']],
  ['shapeGroup', ['shape', 'rise', 'leg_left', 'leg_right', 'peak_at', 'unit', 'unit_joint', 'mullion_face']],
  ['soundGroup', ['room_volume', 'wall_rw', 'vent_dne', 'sash_leak']],
];
const WORDS = {
  operator: KINDS, operator_insert: KINDS, grade_floor: YES, sidelite: YES, conditioned: YES, tempered: ['yes', 'rule'], action: ['replace', 'keep'],
  sash_leak: ['tight', 'usual', 'loose', 'stuck'], unit_joint: ['beside', 'over'], retained_cover: ['bare', 'pvc', 'wood', 'foam_trim'], grilles: ['none', 'between', 'outside'],
  shape: ['half_round', 'quarter_round', 'arch', 'circle', 'octagon', 'triangle', 'trapezoid', 'gothic'],
  existing_frame: ['aluminium', 'aluminium_break', 'steel', 'wood', 'vinyl', 'fibreglass'],
};
const DRAWN = ['width_bottom', 'width_middle', 'width_top', 'height_left', 'height_middle', 'height_right', 'diagonal_1', 'diagonal_2', 'fins_cut', 'sill_lip_cut'];

export function Columns({state, row, tag}) {
  const t = openings(state.job), known = new Set([...GROUPS.flatMap(([, list]) => list), ...DRAWN]);
  const own = t.head.filter((name) => name && !known.has(name.toLowerCase().trim().replace(/\s+/g, '_')));
  const groups = own.length ? [...GROUPS, ['ownGroup', own]] : GROUPS;
  const words = (name) => (name === 'facing' ? FACINGS.map(([letter, word]) => [letter, say(word)]) : name === 'package' ? state.names : WORDS[name]);
  return (
    <div class="columns">
      {groups.map(([title, list], g) => (
        <details key={title} open={g === 0}>
          <summary>{say(title)}</summary>
          <div class="fields">
            {list.map((name) => (
              <Field key={name} id={`cell-${row}-${name}`} label={say(name)} value={t.cell(row, name)} grey={state.granted('openings.csv', name, tag)} words={words(name)} readOnly={state.readOnly}
                onText={(text) => state.tryEdit((job) => setCell(job, 'openings.csv', row, name, text), `${row} ${name}`)} />
            ))}
          </div>
        </details>
      ))}
    </div>
  );
}
