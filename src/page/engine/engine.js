// The program for the page: two workers that share one compiled module, one for edits, one for long runs.
//
//   const engine = await openEngine({wasm, worker, gnuplot});
//     wasm     bytes of panewright.wasm
//     worker   text of the worker's script (build/page/engine/worker.js)
//     gnuplot  () => Promise of the bytes of gnuplot.wasm; asked for at the first picture
//   await engine.edit(argv, files, lane) -> {status, out, err, files} or null
//     argv   the command's words after `panewright`; the job is /job: ['compare', '/job', '--format', 'json']
//     files  Map name -> Uint8Array of the job; the result's out and err are texts, its files (bytes) what was written, by
//            path: /out/NAME, or /job/NAME of what it wrote into the job
//     lane   by itself the command's name; in a lane the newest call wins, an older one gives null
//   engine.long(argv, files, onProgress) -> {promise, cancel()}
//     onProgress({what, percent}); cancelled, the promise gives null. One runs, others wait.
// status is the exit status of the command. A run that breaks off gives 70 and its line in err.
import { Hand } from './hand.js';

// In a lane one call waits at most.
class Edits {
  constructor(hand) {
    this.hand = hand;
    this.waiting = new Map();
    this.busy = false;
  }

  call(argv, files, lane) {
    return new Promise((resolve) => {
      this.waiting.get(lane)?.resolve(null);
      this.waiting.set(lane, { argv, files, resolve });
      this.next();
    });
  }

  async next() {
    if (this.busy || this.waiting.size === 0) return;
    const [lane, { argv, files, resolve }] = this.waiting.entries().next().value;
    this.waiting.delete(lane);
    this.busy = true;
    const result = await this.hand.run(argv, files);
    this.busy = false;
    resolve(this.waiting.has(lane) ? null : result);
    this.next();
  }
}

class LongRuns {
  constructor(hand) {
    this.hand = hand;
    this.queue = [];
    this.current = null;
  }

  call(argv, files, onProgress) {
    const task = { argv, files, onProgress };
    const promise = new Promise((resolve) => {
      task.resolve = resolve;
    });
    this.queue.push(task);
    this.next();
    return { promise, cancel: () => this.cancel(task) };
  }

  async next() {
    if (this.current || this.queue.length === 0) return;
    const task = this.queue.shift();
    this.current = task;
    await this.hand.equip('gnuplot'); // else the first picture would begin a long run anew
    const result = task.cancelled ? null : await this.hand.run(task.argv, task.files, task.onProgress);
    this.current = null;
    task.resolve(result);
    this.next();
  }

  cancel(task) {
    task.cancelled = true;
    if (task === this.current) {
      this.hand.stop();
    } else if (this.queue.includes(task)) {
      this.queue.splice(this.queue.indexOf(task), 1);
      task.resolve(null);
    }
  }
}

const once = (make) => {
  let made;
  return () => (made ??= make().catch((fault) => {
    made = undefined;
    throw fault;
  }));
};

export const openEngine = async ({ wasm, worker, gnuplot }) => {
  const engine = await WebAssembly.compile(wasm);
  const helpers = { gnuplot: once(async () => WebAssembly.compile(await gnuplot())) };
  const hands = [new Hand(worker, engine, helpers), new Hand(worker, engine, helpers)];
  const edits = new Edits(hands[0]);
  const long = new LongRuns(hands[1]);
  return {
    edit: (argv, files, lane = argv[0]) => edits.call(argv, files, lane),
    long: (argv, files, onProgress) => long.call(argv, files, onProgress),
    close: () => hands.forEach((hand) => hand.close()),
  };
};
