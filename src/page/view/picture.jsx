// A picture that the program draws, made when its fold is opened.
import {useEffect, useId, useRef, useState} from 'preact/hooks';
import {say} from './words.js';

/* of: what it is drawn of beside what argv says. */
export function Picture({state, argv, file, label, of}) {
  const place = useRef(null), lane = `picture ${useId()}`;
  const [made, setMade] = useState({address: '', err: ''}), [open, setOpen] = useState(false);
  useEffect(() => {
    const fold = place.current.closest('details'), look = () => setOpen(fold.open);
    fold.addEventListener('toggle', look);
    return () => fold.removeEventListener('toggle', look);
  }, []);
  useEffect(() => {
    if (!open) return undefined;
    let address = '', there = true;
    state.ask(argv, state.job, lane).then((told) => {
      if (!there || !told) return;
      const svg = told.files.get(file);
      if (svg) address = URL.createObjectURL(new Blob([svg], {type: 'image/svg+xml'}));
      setMade({address, err: svg ? '' : told.err});
    });
    return () => {
      there = false;
      URL.revokeObjectURL(address);
    };
  }, [argv.join('\n'), of, open]);
  return <div class="picture" ref={place}>{made.address ? <img src={made.address} alt={label} /> : <p class="soft">{made.err || say('waiting')}</p>}</div>;
}
