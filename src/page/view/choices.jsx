import {LANGUAGES, say} from './words.js';

/* The other units and the other language. */
export function Choices({state}) {
  const other = LANGUAGES.find(([code]) => code !== state.language);
  return (
    <span class="choices">
      <button type="button" class="plain" onClick={() => state.set({units: state.units === 'ip' ? 'si' : 'ip'})}>{say(state.units === 'ip' ? 'metric' : 'inches')}<span class="unseen"> ({say('units')})</span></button>
      <button type="button" class="plain" lang={other[0]} onClick={() => state.set({language: other[0]})}>{other[1]}</button>
    </span>
  );
}
