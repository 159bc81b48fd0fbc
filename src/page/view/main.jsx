// The page: draws the state and hands it what is done.
import {render} from 'preact';
import {openStore} from '../model/store.js';
import {App} from './app.jsx';
import {State} from './state.js';

export async function start(root, {engine, store = null}) {
  const state = new State(engine, store);
  const draw = () => render(<App state={state} />, root);
  state.listeners.add(draw);
  draw(); /* at once, since storage takes its time to open */
  state.set({store: store ?? (await openStore())});
  return state;
}
