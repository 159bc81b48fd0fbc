// The page: draws the state and hands it what is done.
import {render} from 'preact';
import {openStore} from '../model/store.js';
import {App} from './app.jsx';
import {State} from './state.js';

export async function start(root, {engine, store}) {
  const state = new State(engine, store ?? (await openStore()));
  const draw = () => render(<App state={state} />, root);
  state.listeners.add(draw);
  addEventListener('popstate', () => state.fromAddress?.());
  draw();
  return state;
}
