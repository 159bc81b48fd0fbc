// The set of papers, each as it will print.
import {useEffect, useRef, useState} from 'preact/hooks';
import {packages} from '../model/job.js';
import {saveAs} from './save_as.js';
import {textOf} from './state.js';
import {say} from './words.js';

const PAPERS = ['measure', 'customer', 'offer', 'order', 'crew', 'materials', 'handover'];

export function Papers({state}) {
  const [open, setOpen] = useState(''), [page, setPage] = useState('letter'), [pack, setPack] = useState(''), [made, setMade] = useState({});
  const name = pack && state.names.includes(pack) ? pack : (state.names[0] ?? '');
  const argv = (paper) => ['papers', '/job', '--output', '/out/papers', '--only', paper, '--html-only', '--paper', page, '--language', state.language, ...state.house(), ...(packages(state.job).rows && !['measure', 'customer', 'offer'].includes(paper) ? ['--package', name] : []),
    ...(['customer', 'offer'].includes(paper) ? ['--no-range'] : [])];
  const key = [state.language, state.units, state.dwelling, page, name].join(' ');
  useEffect(() => { /* one after another: what each still lacks */
    let there = true;
    (async () => {
      setMade({});
      for (const paper of PAPERS) {
        const told = await state.ask(argv(paper), state.job, `paper ${paper}`);
        if (!there || !told) return;
        const pages = [...told.files].filter(([f]) => f.endsWith('.html'));
        setMade((m) => ({...m, [paper]: {html: pages.length ? textOf(pages[0][1]) : '', csv: [...told.files].filter(([f]) => f.endsWith('.csv')), err: told.err.trim().replaceAll('panewright: ', '')}}));
      }
    })();
    return () => { there = false; };
  }, [state.job, key]);
  const now = made[open];
  return (
    <div class="papers">
      <div class="shelf">
        <h2>{say('paperList')}</h2>
        <div class="fields">
          <div class="field"><label for="paper-page">{say('print')}</label><select id="paper-page" value={page} onChange={(e) => setPage(e.currentTarget.value)}><option value="letter">{say('letter')}</option><option value="a4">{say('a4')}</option></select></div>
          <div class="field"><label for="paper-package">{say('ofPackage')}</label><select id="paper-package" value={name} onChange={(e) => setPack(e.currentTarget.value)}>{state.names.map((n) => <option key={n}>{n}</option>)}</select></div>
        </div>
        <ul>
          {PAPERS.map((p) => (
            <li key={p}>
              <button type="button" class="paper" aria-pressed={open === p} disabled={!made[p]?.html} onClick={() => { setOpen(p); setTimeout(() => document.querySelector('.desk')?.scrollIntoView({block: 'nearest'})); }}><b>{say(p)}</b><span class={made[p]?.html ? 'soft' : ''}>{made[p] ? (made[p].html ? say('ready') : '') : say('waiting')}</span></button>
              {made[p]?.err && <p class={made[p].html ? 'lacks' : 'lacks danger'}>{made[p].err}</p>}
            </li>
          ))}
        </ul>
      </div>
      {now?.html && <Sheet name={say(open)} html={now.html} csv={now.csv} page={page} />}
    </div>
  );
}

/* In a frame without scripts; printed by the browser. */
function Sheet({name, html, csv, page}) {
  const frame = useRef(null);
  const sized = html.replace('</head>', `<style>@page{size:${page === 'a4' ? 'A4' : 'letter'}}</style></head>`);
  return (
    <section class="desk" aria-label={name}>
      <p class="row">
        <button type="button" class="strong" onClick={() => frame.current.contentWindow.print()}>{say('print')}</button>
        {csv.map(([file, bytes]) => <button key={file} type="button" onClick={() => saveAs(file.split('/').pop(), 'text/csv', bytes)}>{say('saveCsv', file.split('/').pop())}</button>)}
      </p>
      <iframe ref={frame} title={name} srcdoc={sized} sandbox="allow-same-origin allow-modals" />
    </section>
  );
}
