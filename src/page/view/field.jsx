// One cell or item: its name, what is typed, and in grey what is taken while nothing is. words: [text, name] of each choice.
import {useDraft} from './draft.js';

/* What is taken of itself, in the words of the list. */
const named = (words, grey) => words.find(([text]) => text === grey)?.[1] ?? grey;

export function Field({id, label, bare, says, value, grey = '', hint, words, readOnly, refused, onText}) {
  const [shown, setDraft] = useDraft(value);
  return (
    <div class="field">
      <label for={id} class={bare ? 'unseen' : undefined}>{says ? <b>{label}</b> : label}{says && <small>{says}</small>}</label>
      {words ? (
        <select id={id} class={value === '' ? 'blank' : undefined} disabled={readOnly} aria-invalid={refused ? 'true' : undefined} onChange={(e) => onText(e.currentTarget.value)}>
          <option value="" selected={value === ''}>{named(words, grey) || '–'}</option>
          {value !== '' && !words.some(([text]) => text === value) && <option value={value} selected>{value}</option>}
          {words.map(([text, name]) => <option key={text} value={text} selected={text === value}>{name}</option>)}
        </select>
      ) : (
        <input id={id} type="text" value={shown} placeholder={grey.replace(/ \(.*/, '') || undefined} readOnly={readOnly} autocomplete="off" spellcheck={false} aria-invalid={refused ? 'true' : undefined} title={[hint, grey].filter(Boolean).join('; ') || undefined} onInput={(e) => { setDraft(e.currentTarget.value); onText(e.currentTarget.value.trim()); }} />
      )}
    </div>
  );
}
