// Parts of one of the program's own pages, shown as part of this one.
import {useLayoutEffect, useRef} from 'preact/hooks';
import {adopted} from './adopt.js';

export function PageOf({nodes}) {
  const place = useRef(null);
  useLayoutEffect(() => {
    place.current.replaceChildren(...nodes.map(adopted).filter(Boolean));
  }, [nodes]);
  return <div class="taken" ref={place} />;
}
