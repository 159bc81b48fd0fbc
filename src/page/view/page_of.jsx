// Parts of one of the program's own pages, shown as part of this one.
import {useLayoutEffect, useRef} from 'preact/hooks';
import {adopted} from './adopt.js';

export function PageOf({nodes, without}) {
  const place = useRef(null);
  useLayoutEffect(() => {
    place.current.replaceChildren(...nodes.map((node) => adopted(node, without)).filter(Boolean));
  }, [...nodes, without]); /* made anew only where they are others */
  return <div class="taken" ref={place} />;
}
