import {useEffect, useRef} from 'preact/hooks';
import {openings} from '../model/job.js';
import {Answer} from './answer.jsx';
import {Choices} from './choices.jsx';
import {Glass} from './glass.jsx';
import {House} from './house.jsx';
import {Opening} from './opening.jsx';
import {Papers} from './papers.jsx';
import {Show} from './show.jsx';
import {Start} from './start.jsx';
import {say} from './words.js';

const PLACES = [['house', House], ['opening', Opening], ['glass', Glass], ['answer', Answer], ['papers', Papers]];

export function App({state}) {
  const shown = useRef(false);
  useEffect(() => { /* keys go on from where it was opened */
    if (shown.current && !state.showing) document.querySelector('.head .strong')?.focus();
    shown.current = state.showing;
  }, [state.showing]);
  useEffect(() => {
    document.documentElement.lang = state.language;
    document.title = state.job ? `${state.title} · panewright` : 'panewright';
  });
  if (!state.store) return <div class="page at-start"><header class="head"><h1>panewright</h1></header><main><p class="row soft">{say('waiting')}</p></main></div>;
  if (!state.job) return <Start state={state} />;
  const Place = PLACES.find(([name]) => name === state.place)[1];
  const keys = (e) => {
    if (!(e.ctrlKey || e.metaKey) || e.key.toLowerCase() !== 'z') return;
    e.preventDefault();
    if (e.shiftKey) state.redo();
    else state.undo();
  };
  if (state.showing) return <Show state={state} />;
  return (
    <div class={`page at-${state.place}`} onKeyDown={keys}>
      <Head state={state} />
      {state.trouble && <p class="trouble" role="alert">{state.trouble}</p>}
      {state.readOnly && <p class="trouble" role="status">{say('readOnly')} <button type="button" onClick={() => state.copyHere(say('copyName', state.job.name))}>{say('copy')}</button></p>}
      <main id="main"><Place state={state} key={state.job.id} /></main>
      <nav aria-label={say('places')}>
        {PLACES.map(([name]) => (
          <button key={name} type="button" aria-current={name === state.place ? 'page' : undefined} onClick={() => state.go(name)}>{say(name)}</button>
        ))}
      </nav>
    </div>
  );
}

function Head({state}) {
  const n = openings(state.job).rows;
  const time = state.saved?.toLocaleTimeString(state.language, {hour: '2-digit', minute: '2-digit'});
  return (
    <header class="head">
      <button type="button" class="plain" onClick={() => state.leave()}><span aria-hidden="true">‹ </span><span class="at-desk">{say('jobs')}</span></button>
      <h1>{state.title}</h1>
      <span class="soft wide-only">{n} {say('windows')}</span>
      <span class="grow" />
      <span class="soft wide-only" role="status">{!state.store.kept ? say('forgets') : time ? say('keptAt', time) : ''}</span>
      <button type="button" class="plain" disabled={!state.history.canUndo} onClick={() => state.undo()} aria-label={say('undo')}><span aria-hidden="true">↶</span></button>
      <button type="button" class="plain" disabled={!state.history.canRedo} onClick={() => state.redo()} aria-label={say('redo')}><span aria-hidden="true">↷</span></button>
      {state.dwellings.length > 1 && <select class="which-dwelling" aria-label={say('dwelling')} value={state.dwelling} onChange={(e) => { state.set({dwelling: e.currentTarget.value, compare: null, range: null, quick: null}); state.refresh(); }}>{state.dwellings.map((d) => <option key={d}>{d}</option>)}</select>}
      <Choices state={state} />
      <button type="button" class="strong" onClick={() => { state.set({showing: true}); state.refresh(); }}>{say('show')}</button>
    </header>
  );
}
