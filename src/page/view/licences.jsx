// What the page is built of and on which terms, as the build took it out of the packages (tools/licences.mjs).
import {useState} from 'preact/hooks';
import {part} from '../engine/parts.js';
import {say} from './words.js';

/* global LICENCES */
let terms; /* a part can be had once */
const read = () => (terms ??= part('licences.txt').then((bytes) => new TextDecoder().decode(bytes)));

export function Licences() {
  const [text, set] = useState('');
  return (
    <details onToggle={(e) => e.target.open && read().then(set)}>
      <summary>{say('licences')}</summary>
      <ul>{LICENCES.map(([name, licence]) => <li key={name}>{name}: {licence}</li>)}</ul>
      <pre class="terms" tabindex="0" aria-label={say('licences')}>{text}</pre>
    </details>
  );
}
