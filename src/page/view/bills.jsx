// The house's own bills: typed or taken from the utility's file, with the weather of their days, and what they say.
import {useEffect, useState} from 'preact/hooks';
import {addRows, itemText, table, withFile, withoutFile} from '../model/job.js';
import {FileButton} from './file_button.jsx';
import {Picture} from './picture.jsx';
import {Rows} from './rows.jsx';
import {say} from './words.js';

const BILLS = 'bills.csv', WEATHER = 'bills_weather.csv', FEED = 'feed.xml';

export function Bills({state}) {
  const [line, setLine] = useState(''), [open, setOpen] = useState(false);
  const there = table(state.job, BILLS).rows > 0, weather = state.job.files.has(WEATHER);
  /* The program reads the feed and gives it back as rows of bills.csv. */
  const takeFeed = async (name, bytes) => {
    const told = await state.engine.edit(['bills', `/job/${FEED}`, '--list'], new Map([[FEED, bytes]]), 'feed');
    if (!told) return;
    setLine(told.err.trim().replaceAll(FEED, name).replaceAll('panewright: ', ''));
    if (told.status === 0) state.tryEdit((job) => addRows(job, BILLS, new TextEncoder().encode(told.out)));
  };
  return (
    <details class="bills" onToggle={(e) => e.target === e.currentTarget && setOpen(e.currentTarget.open)}>
      <summary>{say('bills')}</summary>
      <p class="soft">{say('billsHow')}</p>
      <Rows state={state} file={BILLS} rare={['generation', 'heat_factor', 'house']} add={say('addBill')}>
        <FileButton label={say('takeFeed')} accept=".xml,text/xml,application/xml" disabled={state.readOnly} onFile={takeFeed} />
      </Rows>
      {line && <p class="lacks" role="status">{line}</p>}
      <p class="row inset">
        <span>{say(weather ? 'weatherThere' : 'weatherLacks')}</span>
        <FileButton label={say(weather ? 'weatherAnew' : 'takeWeather')} accept=".csv,.txt,.dly,.gz,text/*" disabled={state.readOnly} onFile={(_, bytes) => state.tryEdit((job) => withFile(job, WEATHER, bytes))} />
        {weather && <button type="button" disabled={state.readOnly} onClick={() => state.tryEdit((job) => withoutFile(job, WEATHER))}>{say('weatherAway')}</button>}
      </p>
      {open && there && <Said state={state} weather={weather} />}
    </details>
  );
}

/* What the bills say, by the program, of the weather of their days and a year at the place. */
function Said({state, weather}) {
  const [told, setTold] = useState(null);
  const place = itemText(state.job, 'climate'), normal = state.job.files.has(place) ? `/job/${place}` : place;
  const argv = ['bills', `/job/${BILLS}`, ...(weather ? ['--weather', `/job/${WEATHER}`, ...(normal ? ['--normal', normal] : [])] : []), ...state.say()];
  useEffect(() => {
    let there = true;
    state.ask(argv, state.job, 'bills').then((t) => there && t && setTold(t));
    return () => { there = false; };
  }, [state.job, argv.join('\n')]);
  if (!told) return <p class="soft">{say('waiting')}</p>;
  return (
    <>
      {told.status === 0 ? <pre tabindex="0" role="region" aria-label={say('bills')}>{told.out}</pre> : <p class="danger" role="alert">{told.err.trim().replaceAll('panewright: ', '')}</p>}
      {told.status === 0 && weather && <details><summary>{say('billsPicture')}</summary><Picture state={state} argv={[...argv, '--plot', '/out/bills.svg']} file="/out/bills.svg" label={say('billsPicture')} of={state.job} /></details>}
    </>
  );
}
