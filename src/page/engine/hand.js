// One worker with the compiled module in it: one run at a time. A run that breaks off gives the exit status of an
// internal fault and the program's line, and the worker is put up anew.
const INTERNAL = 70;

export class Hand {
  static again = []; // lines of the runs that were made once more, so that tests can tell of them

  // source: text of the worker's script; engine: WebAssembly.Module; helpers: {NAME: () => Promise<module>}, shared
  // with the other hand.
  constructor(source, engine, helpers) {
    this.url = URL.createObjectURL(new Blob([source], { type: 'text/javascript' }));
    this.engine = engine;
    this.helpers = helpers;
    this.have = {};
    this.id = 0;
    this.start();
  }

  start() {
    this.ready = false;
    this.worker = new Worker(this.url);
    this.worker.onmessage = ({ data }) => this.hear(data);
    this.worker.onerror = (event) => this.broken(`panewright: the run broke off: ${event.message || 'no reason told'}`);
    this.send();
  }

  send() {
    this.worker.postMessage({ start: { engine: this.engine, helpers: this.have } });
  }

  // Gives {status, out, err, files}, or null when it was ended by stop().
  run(argv, files, onProgress) {
    return new Promise((resolve) => {
      this.now = { id: ++this.id, argv, files, onProgress, resolve };
      if (this.dead) this.broken(this.dead);
      else this.post();
    });
  }

  post() {
    const { id, argv, files } = this.now;
    this.worker.postMessage({ run: { id, argv, files } });
  }

  hear({ ready, id, progress, need, crash, done }) {
    this.ready ||= Boolean(ready);
    if (!this.now || id !== this.now.id) return;
    if (progress) this.now.onProgress?.(progress);
    else if (need) this.bring(need);
    else if (crash) this.broken(crash);
    else if (done) this.give(done);
  }

  /* Gives the worker a helper before a run asks for it; one that cannot be had is told when it is asked for. */
  async equip(name) {
    if (this.have[name]) return;
    try {
      this.have[name] = await this.helpers[name]();
      this.send();
    } catch { /* told later */ }
  }

  async bring(name) {
    const { now } = this;
    try {
      this.have[name] = await this.helpers[name]();
    } catch (fault) {
      if (this.now === now) this.broken(`panewright: ${name} cannot be loaded: ${fault.message}`);
      return;
    }
    if (this.now !== now) return;
    this.send();
    this.post();
  }

  give(result) {
    const { resolve } = this.now;
    this.now = null;
    resolve(result);
  }

  // A worker that never stood up would not the second time. A run that broke off is made once more: what is the program's own
  // fault comes again, what was the browser's (WebKit, now and then) does not.
  broken(line) {
    this.worker.terminate();
    if (this.ready) this.start();
    else this.dead = line;
    if (this.now && !this.dead && !this.now.again) {
      this.now.again = true;
      Hand.again.push(line);
      this.post();
    } else if (this.now) this.give({ status: INTERNAL, out: '', err: `${line.replace(/\s+/g, ' ')}\n`, files: new Map() });
  }

  stop() {
    if (!this.now) return;
    this.worker.terminate();
    this.start();
    this.give(null);
  }

  close() {
    this.worker.terminate();
    URL.revokeObjectURL(this.url);
  }
}
