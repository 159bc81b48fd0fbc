// The place of the house by ZIP code or town: what is written, what it may become, what is taken.
import {useEffect, useState} from 'preact/hooks';
import {itemText, setItem} from '../model/job.js';
import {Field} from './field.jsx';
import {say} from './words.js';

export function Place({state}) {
  const text = itemText(state.job, 'climate');
  const [like, setLike] = useState({of: '', list: []}), [typing, setTyping] = useState(false);
  useEffect(() => {
    let there = true;
    if (text) state.ask(['climates', text, '--like', '--format', 'json', ...state.say()], state.job, 'like').then((told) => there && told?.status === 0 && setLike({of: text, list: JSON.parse(told.out).like}));
    return () => { there = false; };
  }, [text, state.units]);
  const put = (to) => state.tryEdit((job) => setItem(job, 'climate', to), 'job.csv climate');
  const known = like.of === text ? like.list : [], taken = known.find((l) => l.write === text), others = known.filter((l) => l.write !== text);
  return (
    <div class="place-of">
      <Field id="place" label={say('climate')} value={text} hint={state.columns?.field('job.csv', 'climate')?.says} readOnly={state.readOnly} onText={(to) => { setTyping(true); put(to); }} />
      {taken && <p class="soft">{taken.said}</p>}
      {typing && others.length > 0 && (
        <div class="chips" role="group" aria-label={say('places_like')}>
          {others.map((l) => <button key={l.write} type="button" class="chip" onClick={() => { setTyping(false); put(l.write); }}><b>{l.write}</b>{l.said.startsWith(l.write) ? <span class="soft">{l.said.slice(l.write.length)}</span> : <span class="soft"> · {l.said}</span>}</button>)}
        </div>
      )}
    </div>
  );
}
