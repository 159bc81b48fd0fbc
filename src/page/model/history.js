// Undo, one step for each edit, 200 deep. Jobs never change, so a step is the job as it was.

const DEEP = 200;

export class History {
  #past = []; /* oldest first */
  #future = []; /* next redo last */
  #where = null;

  constructor(job) {
    this.job = job;
  }

  /* where names what is typed in (a cell, an item): keys typed one after another in one place are one edit. */
  do(job, where = null) {
    if (job === this.job) return job;
    if (where === null || where !== this.#where) {
      this.#past.push(this.job);
      if (this.#past.length > DEEP) this.#past.shift();
    }
    this.#where = where;
    this.#future = [];
    return (this.job = job);
  }

  /* The place has been left: the next key there is an edit of its own. */
  seal() {
    this.#where = null;
  }

  undo() {
    return this.#step(this.#past, this.#future);
  }

  redo() {
    return this.#step(this.#future, this.#past);
  }

  get canUndo() {
    return this.#past.length > 0;
  }

  get canRedo() {
    return this.#future.length > 0;
  }

  #step(from, to) {
    this.#where = null;
    if (from.length === 0) return this.job;
    to.push(this.job);
    return (this.job = from.pop());
  }
}
