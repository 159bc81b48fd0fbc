// Opens the engine from the parts of the page; calls made before it stands wait for it.
import { openEngine } from './engine.js';
import { part } from './parts.js';

// The first view is drawn before the engine takes the processor; a page out of sight draws nothing, so time ends that, too.
const drawn = () =>
  new Promise((resolve) => {
    requestAnimationFrame(() => setTimeout(resolve));
    setTimeout(resolve, 300);
  });

const open = async () => {
  await drawn();
  const [wasm, worker] = await Promise.all([part('panewright.wasm'), part('worker.js')]);
  return openEngine({
    wasm,
    worker: new TextDecoder().decode(worker),
    gnuplot: () => part('gnuplot.wasm'),
  });
};

export const boot = () => {
  const ready = open();
  return {
    ready,
    edit: async (...call) => (await ready).edit(...call),
    long(...call) {
      let task;
      let ended = false;
      const promise = ready.then((engine) => {
        if (ended) return null;
        task = engine.long(...call);
        return task.promise;
      });
      const cancel = () => {
        ended = true;
        task?.cancel();
      };
      return { promise, cancel };
    },
  };
};
