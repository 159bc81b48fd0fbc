// The page with the native command behind it (dev-server.mjs).
import {start} from '../../src/page/view/main.jsx';
import css from '../../src/page/view/style.css';

const style = document.createElement('style');
style.textContent = css;
document.head.append(style);

const to64 = (bytes) => btoa(Array.from(bytes, (b) => String.fromCharCode(b)).join(''));
const from64 = (text) => Uint8Array.from(atob(text), (c) => c.charCodeAt(0));

async function run(argv, files, signal) {
  const body = JSON.stringify({argv, files: [...files].map(([name, bytes]) => [name, to64(bytes)])});
  const told = await (await fetch('/run', {method: 'POST', body, signal})).json();
  return {...told, files: new Map(told.files.map(([name, text]) => [`/out/${name}`, from64(text)]))};
}

const newest = new Map();
const engine = {
  async edit(argv, files, lane = argv[0]) {
    const mine = (newest.get(lane) ?? 0) + 1;
    newest.set(lane, mine);
    const told = await run(argv, files);
    return mine === newest.get(lane) ? told : null;
  },
  long(argv, files) {
    const stop = new AbortController();
    return {promise: run(argv, files, stop.signal), cancel: () => stop.abort()};
  },
};
start(document.getElementById('page'), {engine});
