import {LANGUAGES, say} from './words.js';

/* Units and language, as short as they can be said. */
export function Choices({state}) {
  const other = LANGUAGES.find(([code]) => code !== state.language);
  return (
    <span class="choices">
      <button type="button" class="plain" onClick={() => state.set({units: state.units === 'ip' ? 'si' : 'ip'})}>{state.units === 'ip' ? 'in' : 'mm'}<span class="unseen">: {say('units')}, {say(state.units === 'ip' ? 'metric' : 'inches')}</span></button>
      <button type="button" class="plain" lang={other[0]} onClick={() => state.set({language: other[0]})}>{other[0]}<span class="unseen">: {other[1]}</span></button>
    </span>
  );
}
