// The files that lie in the job's folder: weather, tariff, drawn sections and whatever else the items name.
import {FILES, withFile, withoutFile} from '../model/job.js';
import {FileButton} from './file_button.jsx';
import {saveAs} from './save_as.js';
import {say} from './words.js';

export function Files({state}) {
  const names = [...state.job.files.keys()];
  return (
    <details>
      <summary>{say('files')}</summary>
      <p class="soft">{say('filesHow')}</p>
      <ul class="jobs">
        {names.map((name) => (
          <li key={name}>
            <span class="job">{name}</span>
            <button type="button" onClick={() => saveAs(name.split('/').pop(), 'application/octet-stream', state.job.files.get(name))} aria-label={say('saveCsv', name)}>{say('saveOne')}</button>
            {!FILES.includes(name) && <button type="button" disabled={state.readOnly} onClick={() => state.tryEdit((job) => withoutFile(job, name))} aria-label={`${say('weatherAway')}: ${name}`}>{say('weatherAway')}</button>}
          </li>
        ))}
      </ul>
      <p class="row inset"><FileButton label={say('addFile')} disabled={state.readOnly} onFile={(name, bytes) => state.tryEdit((job) => withFile(job, name, bytes))} /></p>
    </details>
  );
}
