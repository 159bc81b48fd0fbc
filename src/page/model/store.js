// Jobs in the browser's own storage (IndexedDB), kept as they are typed. A save is one transaction: all of the new state or the
// old. Files are rows of their own and only those that changed are written, so a year of weather costs one write. Until it has
// ended, what was typed stands in the journal.
import {openDB} from 'idb';
import {note, noted, strike} from './journal.js';

const NAME = 'panewright';
const FORGET_AFTER = 60 * 60 * 1000; /* ms that a deleted job can be brought back */
const LOW = 10 * 2 ** 20; /* bytes left at which one is told */
const RESERVE = 2 ** 20; /* bytes laid by: they are given up when storage is full, so that the edit in hand is kept and one is told */

const FORGETS = 'this browser forgets; save to a file';
const NEARLY_FULL = 'storage is full but for a reserve, which was used: save to a file, or delete a job';
const FULL = 'storage is full: the last edits are in this tab alone; save to a file, or delete a job';
const ELSEWHERE = 'another tab has changed this job; this tab shows an older state and saves no more';
const READ_ONLY = 'open in another tab, so it can only be read here; close it there, or make a copy here';

/* {kept, why, list, load, lags, save, remove, restore, claim, room}; kept false: jobs live until the tab is closed. */
export async function openStore({name = NAME, now = Date.now} = {}) {
  const db = await openDb(name);
  const store = new Store(db.db, db.db ? '' : db.why, now);
  await store.forget();
  await store.layBy();
  return store;
}

async function openDb(name) {
  try {
    if (!globalThis.indexedDB) return {db: null, why: FORGETS};
    const db = await openDB(name, 1, {
      upgrade(d) {
        d.createObjectStore('jobs', {keyPath: 'id'});
        d.createObjectStore('files'); /* key [id, name] */
        d.createObjectStore('probe');
      },
      blocking: () => db.close(), /* a newer page wants another form */
    });
    return (await forgets(db)) ? {db: null, why: FORGETS} : {db};
  } catch {
    return {db: null, why: FORGETS};
  }
}

async function forgets(db) {
  const probe = crypto.getRandomValues(new Uint8Array(4));
  try {
    await db.put('probe', probe, PROBE);
  } catch (why) {
    return !isFull(why); /* what is kept can be read still */
  }
  return String(await db.get('probe', PROBE)) !== String(probe);
}

const PROBE = 0, BY = 1; /* keys of the store probe */
const NOTHING = {version: 0, files: new Map()};
const isFull = (why) => why?.name === 'QuotaExceededError' || /quota/i.test(why?.message ?? '');
const filesOf = (id) => IDBKeyRange.bound([id], [id, []]);

class Store {
  #db;
  #now;
  #seen = new Map(); /* id -> {version, files}: what this tab last read or wrote */
  #asked = new Map(); /* id -> version of the newest state that it was given to save */
  #waiting = new Map(); /* id -> {job, promise}: the newest state behind a save in hand */
  #memory = new Map(); /* where nothing is kept */
  #hasReserve = true;

  constructor(db, why, now) {
    this.#db = db;
    this.#now = now;
    this.kept = db !== null;
    this.why = why;
  }

  /* [{id, name, changed, removed, bytes}], the last changed first; removed: deleted and not yet forgotten. */
  async list({removed = false} = {}) {
    const rows = this.#db ? await this.#db.getAll('jobs') : [...this.#memory.values()].map((m) => m.row);
    return rows.filter((row) => Boolean(row.removed) === removed).sort((a, b) => b.changed - a.changed || (a.id < b.id ? -1 : 1));
  }

  /* The job, null when there is none. */
  async load(id) {
    if (!this.#db) return this.#memory.get(id)?.job ?? null;
    const tx = this.#db.transaction(['jobs', 'files']);
    const row = await tx.objectStore('jobs').get(id);
    if (!row || row.removed) return null;
    const files = tx.objectStore('files');
    const [names, bytes] = await Promise.all([files.getAllKeys(filesOf(id)), files.getAll(filesOf(id))]);
    const found = new Map(names.map(([, name], i) => [name, bytes[i]]));
    const job = {id, name: row.name, files: new Map(row.names.map((name) => [name, found.get(name)]))};
    this.#seen.set(id, {version: row.version, files: job.files});
    const later = noted(job, row.version);
    this.#asked.set(id, later?.version ?? row.version);
    return later?.job ?? job;
  }

  /* Keeps the job; resolves when it is on disk, with "" or a line to show (NEARLY_FULL). Saves of one job go one after another,
   * and of those that wait only the newest. Rejects with one line (FULL, ELSEWHERE ...) and leaves what was kept before. */
  save(job) {
    const waits = this.#waiting.get(job.id), version = (this.#asked.get(job.id) ?? 0) + 1;
    this.#asked.set(job.id, version);
    if (this.#db) note(job, version, this.#seen.get(job.id) ?? NOTHING);
    if (waits) {
      if (!waits.next) waits.next = {promise: waits.promise.catch(() => {}).then(() => this.#start(waits.next.job, waits.next.version))};
      Object.assign(waits.next, {job, version});
      return waits.next.promise;
    }
    return this.#start(job, version);
  }

  /* Whether what was loaded came in part from the journal, so that it wants to be saved. */
  lags(id) {
    return (this.#asked.get(id) ?? 0) > (this.#seen.get(id)?.version ?? 0);
  }

  #start(job, version) {
    const entry = {next: null, promise: null}, {id} = job;
    this.#waiting.set(id, entry);
    entry.promise = this.#keep(job, version).finally(() => {
      if (!entry.next && this.#waiting.get(id) === entry) this.#waiting.delete(id);
    });
    return entry.promise;
  }

  async #keep(job, version) {
    try {
      await this.#write(job, version);
    } catch (why) {
      if (why.message !== FULL || !this.#hasReserve) throw why;
      this.#hasReserve = false;
      await this.#db.delete('probe', BY);
      await this.#write(job, version);
    }
    return this.#hasReserve ? '' : NEARLY_FULL;
  }

  /* All of it is asked of the browser before anything is waited for. */
  async #write(job, version) {
    const row = {id: job.id, name: job.name, names: [...job.files.keys()], changed: this.#now(), removed: 0,
      bytes: [...job.files.values()].reduce((n, b) => n + b.length, 0)};
    if (!this.#db) {
      this.#memory.set(job.id, {job, row: {...row, version}});
      return;
    }
    const seen = this.#seen.get(job.id) ?? NOTHING;
    const tx = this.#db.transaction(['jobs', 'files'], 'readwrite', {durability: 'strict'});
    const ended = tx.done.catch((why) => why ?? new Error('the browser ended the save'));
    try {
      const jobs = tx.objectStore('jobs'), files = tx.objectStore('files');
      const before = jobs.get(job.id).then((kept) => {
        if ((kept?.version ?? 0) !== seen.version) throw new Error(ELSEWHERE);
      });
      const puts = [...job.files].filter(([name, bytes]) => seen.files.get(name) !== bytes).map(([name, bytes]) => files.put(bytes.slice(), [job.id, name]));
      const gone = [...seen.files.keys()].filter((name) => !job.files.has(name)).map((name) => files.delete([job.id, name]));
      await Promise.all([before, ...puts, ...gone, jobs.put({...row, version})]);
    } catch (why) {
      try {
        tx.abort();
      } catch { /* it has ended by itself */ }
      await ended;
      if (why.message === ELSEWHERE) strike(job.id);
      throw new Error(isFull(why) ? FULL : why.message);
    }
    const why = await ended;
    if (why instanceof Error || why instanceof DOMException) throw new Error(isFull(why) || isFull(tx.error) ? FULL : why.message);
    this.#seen.set(job.id, {version, files: job.files});
    if (this.#asked.get(job.id) === version) strike(job.id);
  }

  /* Deleted, and for an hour restore brings it back. */
  remove(id) {
    return this.#mark(id, this.#now());
  }

  restore(id) {
    return this.#mark(id, 0);
  }

  async #mark(id, removed) {
    if (!this.#db) {
      const m = this.#memory.get(id);
      if (m) m.row.removed = removed;
      return;
    }
    const tx = this.#db.transaction('jobs', 'readwrite', {durability: 'strict'});
    const row = await tx.store.get(id);
    if (row) await tx.store.put({...row, removed});
    await tx.done;
  }

  /* Forgets jobs deleted more than an hour ago. */
  async forget() {
    for (const row of await this.list({removed: true})) {
      if (this.#now() - row.removed < FORGET_AFTER) continue;
      this.#memory.delete(row.id);
      strike(row.id);
      if (!this.#db) continue;
      const tx = this.#db.transaction(['jobs', 'files'], 'readwrite');
      await Promise.all([tx.objectStore('files').delete(filesOf(row.id)), tx.objectStore('jobs').delete(row.id), tx.done]);
    }
  }

  /* Lays the reserve by again where there is room for it. */
  async layBy() {
    if (!this.#db) return;
    try {
      const there = await this.#db.count('probe', BY);
      const random = new Uint8Array(RESERVE); /* which no disk packs smaller */
      for (let at = 0; at < RESERVE; at += 65536) crypto.getRandomValues(random.subarray(at, at + 65536));
      if (!there) await this.#db.put('probe', random, BY);
      this.#hasReserve = true;
    } catch {
      this.#hasReserve = false;
    }
  }

  /* What is left for the page, to be told before it is used up: {left, low, line}. left null: the browser does not say. */
  async room() {
    if (!this.#db) return {left: null, low: true, line: this.why};
    if (!this.#hasReserve) return {left: 0, low: true, line: NEARLY_FULL};
    try {
      const {quota, usage} = await navigator.storage.estimate();
      const left = Math.max(0, quota - usage), low = left < LOW;
      return {left, low, line: low ? `storage is nearly full: ${Math.floor(left / 2 ** 20)} MB left; save to a file, or delete a job` : ''};
    } catch {
      return {left: null, low: false, line: ''};
    }
  }

  /* Asks the browser not to clear jobs by itself; true when it promises. */
  async persist() {
    try {
      return this.kept && (await navigator.storage.persist());
    } catch {
      return false;
    }
  }

  /* One writer a job: {writer, why, release, free}. Where this tab may only read, `free` resolves when the other has let go and
   * this tab is the writer: load the job again. */
  async claim(id) {
    const name = `panewright job ${id}`, locks = globalThis.navigator?.locks;
    if (!locks || !this.#db) return {writer: true, why: '', release() {}, free: Promise.resolve()};
    let release;
    const held = new Promise((done) => { release = done; });
    const got = await new Promise((tell) => {
      locks.request(name, {ifAvailable: true}, (lock) => {
        tell(lock !== null);
        return lock && held;
      }).catch(() => tell(true)); /* no locks on such a page: the version in #write still guards */
    });
    if (got) return {writer: true, why: '', release, free: Promise.resolve()};
    const away = new AbortController();
    const free = new Promise((done) => {
      locks.request(name, {signal: away.signal}, () => {
        done();
        return held;
      }).catch(() => {});
    });
    return {writer: false, why: READ_ONLY, free, release() {
      away.abort();
      release();
    }};
  }
}
