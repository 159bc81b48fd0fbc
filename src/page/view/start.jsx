// The jobs on this device.
import {useEffect, useState} from 'preact/hooks';
import {readFileList, writeFolder} from '../model/folder.js';
import {copyOf, example, freeName, newJob, starter} from '../model/job.js';
import {readZipAll, writeZip} from '../model/zip.js';
import {Choices} from './choices.jsx';
import {Licences} from './licences.jsx';
import {saveAs} from './save_as.js';
import {say} from './words.js';

export function Start({state}) {
  const {store, engine} = state;
  const [jobs, setJobs] = useState(null), [gone, setGone] = useState(null), [line, setLine] = useState('');
  const look = async () => {
    setJobs(await store.list());
    const room = await store.room();
    if (room.low && room.line) setLine(room.line);
  };
  useEffect(() => { look(); }, []);
  const tried = async (what) => {
    try {
      setLine('');
      await what();
    } catch (why) {
      setLine(why.message);
    }
    await look();
  };
  const keep = async (job) => {
    await store.save({...job, name: freeName(job.name, jobs.map((j) => j.name))});
    return job.id;
  };
  const make = (of, name) => tried(async () => state.open(await keep(await of(run(engine), name))));
  const take = (found) => tried(async () => {
    for (const f of await found()) await keep(newJob(f.name, f.files));
  });
  const zip = async (e) => {
    const [file] = e.currentTarget.files;
    e.currentTarget.value = '';
    if (file) await take(async () => readZipAll(new Uint8Array(await file.arrayBuffer()), file.name));
  };
  const folder = async (e) => {
    const list = [...e.currentTarget.files];
    e.currentTarget.value = '';
    if (list.length) await take(() => readFileList(list));
  };
  /* before the list is read nothing is drawn that it would push away under a finger */
  if (!jobs) return <div class="page at-start"><header class="head"><h1>panewright</h1><span class="grow" /><Choices state={state} /></header></div>;
  return (
    <div class="page at-start">
      <header class="head"><h1>panewright</h1><span class="grow" /><Choices state={state} /></header>
      {!store.kept && <p class="trouble" role="alert">{say('forgets')}</p>}
      {line && <p class="trouble" role="alert">{line}</p>}
      <main id="main" class="start">
        <h2>{say('jobsHere')}</h2>
        {gone && <p role="status">{say('removed', gone.name)} <button type="button" onClick={() => tried(async () => { await store.restore(gone.id); setGone(null); })}>{say('bringBack')}</button></p>}
        {jobs.length === 0 && <p class="soft">{say('noJobs')}</p>}
        <ul class="jobs">
          {jobs.map((j) => (
            <li key={j.id}>
              <button type="button" class="job" onClick={() => state.open(j.id)}><b>{j.name}</b><span class="soft">{new Date(j.changed).toLocaleString(state.language, {dateStyle: 'medium', timeStyle: 'short'})}</span></button>
              <button type="button" onClick={() => tried(async () => saveAs(`${j.name}.zip`, 'application/zip', writeZip(await store.load(j.id))))} aria-label={`${say('saveFile')}: ${j.name}`}>{say('saveFile')}</button>
              {globalThis.showDirectoryPicker && <button type="button" onClick={() => tried(async () => toFolder(await store.load(j.id)))} aria-label={`${say('saveFolder')}: ${j.name}`}>{say('saveFolder')}</button>}
              <button type="button" onClick={() => tried(async () => keep(copyOf(await store.load(j.id), say('copyName', j.name))))} aria-label={`${say('copy')}: ${j.name}`}>{say('copy')}</button>
              <button type="button" onClick={() => tried(async () => { await store.remove(j.id); setGone(j); })} aria-label={`${say('remove')}: ${j.name}`}>{say('remove')}</button>
            </li>
          ))}
        </ul>
        <div class="new">
          <button type="button" class="strong" onClick={() => make(starter, say('firstJob'))}>{say('newJob')}</button>
          <button type="button" onClick={() => make(example, say('exampleName'))}>{say('newExample')}</button>
          <label class="button">{say('importZip')}<input type="file" accept=".zip,application/zip" onChange={zip} /></label>
          <label class="button">{say('importFolder')}<input type="file" webkitdirectory multiple onChange={folder} /></label>
        </div>
        <Licences />
      </main>
    </div>
  );
}

async function toFolder(job) {
  let place;
  try {
    place = await showDirectoryPicker({mode: 'readwrite'});
  } catch {
    return; /* none was picked */
  }
  await writeFolder(place, job);
}

/* Pressed twice at once, the first makes nothing. */
const run = (engine) => async (argv, files) => (await engine.edit(argv, files, 'new')) ?? {err: ''};
