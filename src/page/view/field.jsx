// One cell or item: its name, what is typed, and in grey what is taken while nothing is.
import {useDraft} from './draft.js';
import {say} from './words.js';

export function Field({id, label, value, grey = '', hint, words, readOnly, refused, onText}) {
  const [shown, setDraft] = useDraft(value);
  return (
    <div class="field">
      <label for={id}>{label}</label>
      {words ? (
        <select id={id} disabled={readOnly} onChange={(e) => onText(e.currentTarget.value)}>
          {(value === '' || !words.some((w) => w === value || w[0] === value)) && <option value={value} selected>{value || grey || '–'}</option>}
          {words.map((w) => {
            const [text, name] = Array.isArray(w) ? w : [w, say(w)];
            return <option key={text} value={text} selected={text === value}>{name}</option>;
          })}
        </select>
      ) : (
        <input id={id} type="text" value={shown} placeholder={grey || undefined} readOnly={readOnly} autocomplete="off" spellcheck={false} aria-invalid={refused ? 'true' : undefined} title={hint || undefined} onInput={(e) => { setDraft(e.currentTarget.value); onText(e.currentTarget.value.trim()); }} />
      )}
    </div>
  );
}
