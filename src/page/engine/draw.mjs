// gnuplot -d -, as the program starts it: a script in, {status, out, said} back.
import { runOnce } from './run_once.mjs';

export const drawWith = (open, module) => (script) => {
  let at = 0;
  const made = runOnce(open, module, ['-d', '-'], {
    once: true,
    stdin: () => (at < script.length ? script[at++] : null),
  });
  return { status: made.status, out: made.out, said: new TextDecoder().decode(made.err) };
};
