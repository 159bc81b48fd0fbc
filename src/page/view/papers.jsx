// The set of papers, each as it will print.
import {useEffect, useState} from 'preact/hooks';
import {withFile} from '../model/job.js';
import {FileButton} from './file_button.jsx';
import {LANGUAGES, say} from './words.js';
import {PAPERS, PROGRAM, RANGED, SENT, argvOf, isRanged, isRanging, keyOf, needOf, paperNow, rangePaper} from './paper_set.js';
import {PROGRAMS, namesIn, zonesIn} from './programs.js';
import {saveAs} from './save_as.js';
import {textOf} from './state.js';

export function Papers({state}) {
  const [open, setOpen] = useState(''), [how, setHow] = useState({page: 'letter', pack: '', language: state.language, zone: ''}), [made, setMade] = useState({});
  const set = (some) => setHow({...how, ...some});
  const pack = state.names.includes(how.pack) ? how.pack : (state.names[0] ?? '');
  const ask = {...how, pack, zone: zoneOf(state.job, how.zone)}, key = keyOf(state, ask);
  useEffect(() => { setHow((h) => ({...h, language: state.language})); }, [state.language]);
  useEffect(() => { /* one after another: what each still lacks */
    let there = true;
    const job = state.job;
    (async () => {
      for (const paper of PAPERS.filter((p) => !needOf(state.job, p))) {
        const told = await state.ask(argvOf(state, ask, paper, false), state.job, `paper ${paper}`);
        if (!there || !told) return;
        setMade((m) => ({...m, [paper]: {...paperNow(told), of: job, by: key}}));
      }
    })();
    return () => { there = false; };
  }, [state.job, key]);
  const ranged = isRanged(state, ask, open) ? state.ranged.get(open).paper : null, now = ranged?.html ? ranged : made[open];
  return (
    <div class={now?.html ? 'papers is-open' : 'papers'}>
      <div class="shelf">
        <h2>{say('paperList')}</h2>
        <div class="fields">
          <Pick id="paper-language" label={say('language')} value={how.language} list={LANGUAGES} onPick={(language) => set({language})} />
          <Pick id="paper-page" label={say('paperSize')} value={how.page} list={['letter', 'a4'].map((p) => [p, say(p)])} onPick={(page) => set({page})} />
          <Pick id="paper-package" label={say('ofPackage')} value={pack} list={state.names.map((n) => [n, n])} onPick={(name) => set({pack: name})} />
        </div>
        <ul>
          {PAPERS.map((p) => (
            <li key={p}>
              {needOf(state.job, p) ? <div class="paper lacking"><b>{say(p)}</b></div>
                : <button type="button" class="paper" aria-pressed={open === p} disabled={!made[p]?.html} onClick={() => setOpen(p)}>
                  <b>{say(p)}</b><span class="soft">{made[p]?.of === state.job && made[p].by === key ? (made[p].html ? say('ready') : '') : <>…<span class="unseen">{say('waiting')}</span></>}</span>
                </button>}
              {made[p]?.err && <p class={made[p].html ? 'lacks' : 'lacks danger'}>{made[p].err}</p>}
              {p === 'change' && <Sent state={state} />}
              {p === 'worksheet' && <Program state={state} zone={ask.zone} onZone={(zone) => set({zone})} />}
            </li>
          ))}
        </ul>
      </div>
      {now?.html && <Sheet key={open} onBack={() => setOpen('')} state={state} name={open} paper={now} page={how.page} language={how.language} over={RANGED.includes(open) && <Ranges state={state} ask={ask} paper={open} />} />}
    </div>
  );
}

const zoneOf = (job, zone) => {
  const zones = job.files.has(PROGRAM) ? zonesIn(job.files.get(PROGRAM)) : [];
  return zones.includes(zone) ? zone : (zones[0] ?? '');
};

function Pick({id, label, value, list, disabled, onPick}) {
  return <div class="field"><label for={id}>{label}</label><select id={id} value={value} disabled={disabled} onChange={(e) => onPick(e.currentTarget.value)}>{list.map(([text, name]) => <option key={text} value={text} selected={text === value}>{name}</option>)}</select></div>;
}

/* The order that went to the maker, which a change order is held against. */
function Sent({state}) {
  return (
    <p class="row inset">
      <span class="soft">{say(state.job.files.has(SENT) ? 'sentThere' : 'sentLacks')}</span>
      <FileButton label={say('takeSent')} accept=".csv,text/csv" disabled={state.readOnly} onFile={(_, bytes) => state.tryEdit((job) => withFile(job, SENT, bytes))} />
    </p>
  );
}

/* The program whose worksheet it is, and its zone where it has several. */
function Program({state, zone, onZone}) {
  const file = state.job.files.get(PROGRAM), zones = file ? zonesIn(file) : [];
  const known = PROGRAMS.findIndex(([, bytes]) => file && textOf(bytes) === textOf(file));
  const put = (bytes) => state.tryEdit((job) => withFile(job, PROGRAM, bytes));
  return (
    <>
      <div class="fields">
        <Pick id="program" disabled={state.readOnly} label={say('program')} value={known} onPick={(i) => PROGRAMS[i] && put(PROGRAMS[i][1])}
          list={[...(known < 0 ? [[-1, file ? (namesIn(file, 'program')[0] ?? PROGRAM) : '–']] : []), ...PROGRAMS.map(([name], i) => [i, name])]} />
        {zones.length > 1 && <Pick id="paper-zone" label={say('zone')} value={zone} list={zones.map((z) => [z, z])} onPick={onZone} />}
      </div>
      <p class="row inset"><FileButton label={say('takeProgram')} accept=".csv,text/csv" disabled={state.readOnly} onFile={(_, bytes) => put(bytes)} /></p>
    </>
  );
}

/* Ranges take long: asked for, they are computed behind and come onto the paper when they are there. */
function Ranges({state, ask, paper}) {
  const run = isRanging(state, ask, paper) ? state.ranging : null, there = isRanged(state, ask, paper), failed = there && !state.ranged.get(paper).paper.html;
  return (
    <div class="sure" role="status">
      {run ? <>
        <span>{say('working')}{run.percent != null && ` ${run.percent} %`}</span>
        <progress max="100" value={run.percent ?? undefined} aria-label={say('working')} />
        <button type="button" onClick={() => run.cancel()}>{say('cancel')}</button>
      </> : there && !failed ? <span>{say('ranged')}</span> : <>
        <span>{failed ? <span class="danger">{state.ranged.get(paper).paper.err}</span> : say('noRanges')}</span>
        <button type="button" onClick={() => rangePaper(state, ask, paper)}>{say('rangeAgain')}</button>
      </>}
    </div>
  );
}

/* In a frame without scripts; printed by the browser. */
function Sheet({state, name, paper, page, language, over, onBack}) {
  const [frame, setFrame] = useState(null);
  const sized = paper.html.replace('</head>', `<style>@page{size:${page === 'a4' ? 'A4' : 'letter'}}</style></head>`);
  return (
    <section class="desk" aria-label={say(name)}>
      <p class="row">
        <button type="button" class="small-only" onClick={onBack}><span aria-hidden="true">‹ </span>{say('papers')}</button>
        <button type="button" class="strong" onClick={() => frame.contentWindow.print()}>{say('print')}</button>
        {paper.csv.map(([file, bytes]) => <button key={file} type="button" onClick={() => saveAs(file, 'text/csv', bytes)}>{say('saveCsv', file)}</button>)}
        {name === 'order' && paper.csv.length > 0 && <button type="button" disabled={state.readOnly} onClick={() => state.tryEdit((job) => withFile(job, SENT, paper.csv[0][1]))}>{say('keepSent')}</button>}
      </p>
      {over}
      <iframe tabIndex={0} ref={setFrame} title={say(name)} lang={language} srcdoc={sized} sandbox="allow-same-origin allow-modals" />
    </section>
  );
}
