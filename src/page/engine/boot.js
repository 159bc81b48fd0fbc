// Opens the engine from the parts of the page; calls made before it stands wait for it.
import { openEngine } from './engine.js';
import { part } from './parts.js';

const open = async () => {
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
