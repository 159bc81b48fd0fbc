// What the page holds: the job in hand with its history, and the program's newest answers about it.
import {History} from '../model/history.js';
import {readColumns} from '../model/columns.js';
import {copyOf, freeName, itemText, openings, packages, table} from '../model/job.js';
import {setLanguage} from './words.js';

const utf8 = new TextDecoder(), BROKE = 70; /* exit status, engine/hand.js */

export class State {
  place = 'start'; /* start, house, opening, glass, answer, papers; show lies over them */
  row = 0; /* the opening's row in openings.csv */
  showing = false;
  history = null;
  claim = null;
  saved = null; /* Date of the last save */
  trouble = ''; /* one line that asks to be read */
  units = 'ip';
  dwelling = '';
  language = 'en';
  fit = null; /* {status, json, err, of: job} */
  compare = null;
  columns = null; /* what the files may say (model/columns.js) */
  /* The customer's sheet (sheet.js); of: the job, by: the options it was asked with. */
  quick = null; /* {of, by, ranged, doc, err} without ranges */
  range = null; /* the same with them */
  asking = null; /* {of, by} of the newest quick one asked for */
  running = null; /* {of, by, cancel, percent, what} of the long run */
  cancelled = null; /* the job whose range the user broke off */
  /* The papers that have ranges (paper_set.js). */
  ranging = null; /* {of, paper, percent, cancel} of the one in hand */
  ranged = new Map(); /* paper -> {of, by, paper} */
  listeners = new Set();

  constructor(engine, store) {
    this.engine = engine;
    this.store = store;
    this.language = navigator.language?.startsWith('es') ? 'es' : 'en';
    setLanguage(this.language);
  }

  get job() {
    return this.history?.job ?? null;
  }

  get readOnly() {
    return this.claim !== null && !this.claim.writer;
  }

  tell() {
    for (const heard of this.listeners) heard();
  }

  set(some) {
    Object.assign(this, some);
    if ('language' in some) setLanguage(some.language);
    this.tell();
    if ('language' in some) this.readWords();
    if ('language' in some || 'units' in some) this.refresh();
  }

  go(place, row = this.row) {
    this.history?.seal();
    this.set({place, row, showing: false});
    this.refresh();
  }

  // ---------------------------------------------------------------- jobs

  async open(id) {
    const job = await this.store.load(id);
    if (!job) return;
    this.leave();
    this.claim = await this.store.claim(id);
    this.history = new History(this.claim.writer ? ((await this.store.load(id)) ?? job) : job);
    if (!this.claim.writer) this.#takeOver(id, this.claim);
    else if (this.store.lags(id)) this.keep(this.job);
    this.set({place: 'house', row: 0, fit: null, compare: null, range: null, saved: null, trouble: ''});
    await Promise.all([this.refresh(), this.readWords()]); /* the fit is asked first */
  }

  /* When the other tab has let go: the job as it left it, in the place where one stands. */
  async #takeOver(id, claim) {
    await claim.free;
    const job = this.claim === claim ? await this.store.load(id) : null;
    if (!job || this.claim !== claim) return;
    claim.writer = true;
    this.history = new History(job);
    if (this.store.lags(id)) this.keep(job);
    this.row = Math.max(0, Math.min(this.row, openings(job).rows - 1));
    this.tell();
    this.refresh();
  }

  /* What the files may say, in the language of the page. */
  async readWords() {
    if (!this.job) return;
    const language = this.language, columns = await readColumns((argv) => this.ask([...argv, '--language', language])).catch(() => null);
    if (columns && language === this.language) this.set({columns});
  }

  leave() {
    this.running?.cancel();
    this.ranging?.cancel();
    this.claim?.release();
    this.ranged.clear();
    Object.assign(this, {history: null, claim: null, fit: null, compare: null, range: null, running: null, place: 'start', showing: false});
    this.#asked = {};
    this.tell();
  }

  /* A copy of a job that another tab writes, opened in its place. */
  async copyHere(name) {
    const copy = copyOf(this.job, freeName(name, (await this.store.list()).map((j) => j.name)));
    await this.store.save(copy);
    await this.open(copy.id);
  }

  async keep(job) {
    try {
      const line = await this.store.save(job);
      if (job === this.job) this.set({saved: new Date(), trouble: line || ''});
    } catch (why) {
      this.set({trouble: why.message});
    }
  }

  /* where: the cell typed in, so that its keys are one step of undo. */
  edit(job, where = null) {
    if (this.readOnly || job === this.job) return;
    this.history.do(job, where);
    this.#changed();
  }

  tryEdit(make, where = null) {
    try {
      this.edit(make(this.job), where);
    } catch (why) {
      this.set({trouble: why.message});
    }
  }

  undo() {
    if (this.readOnly || !this.history) return;
    this.history.undo();
    this.#changed();
  }

  redo() {
    if (this.readOnly || !this.history) return;
    this.history.redo();
    this.#changed();
  }

  #changed() {
    this.row = Math.max(0, Math.min(this.row, openings(this.job).rows - 1));
    this.saved = null;
    this.keep(this.job); /* before anything that takes time */
    this.tell();
    this.refresh();
  }

  // ---------------------------------------------------------------- the program

  say() {
    return ['--units', this.units];
  }

  /* Where the job holds several dwellings, one is looked at. */
  get dwellings() {
    return (this.fit?.json?.dwellings ?? []).map((d) => d.dwelling);
  }

  house() {
    const all = this.dwellings;
    if (all.length && !all.includes(this.dwelling)) [this.dwelling] = all;
    return [...this.say(), ...(all.length > 1 ? ['--dwelling', this.dwelling] : [])];
  }

  /* null where no answer comes: a newer call won, or the job was left meanwhile. */
  async ask(argv, job = this.job, lane = argv[0]) {
    return job ? this.engine.edit(argv, job.files, lane) : null;
  }

  #asked = {}; /* by key: {of, by, answer} of what is asked or was answered last: the same is not computed twice */

  /* Resolves to whether an answer came. */
  #json(argv, key) {
    const of = this.job, by = argv.join('\n'), last = this.#asked[key];
    if (last?.of === of && last.by === by) return last.answer;
    const mine = {of, by, answer: this.#answer(argv, key)};
    this.#asked[key] = mine;
    mine.answer.then((came) => {
      if (!came && this.#asked[key] === mine) delete this.#asked[key];
    });
    return mine.answer;
  }

  async #answer(argv, key) {
    const job = this.job, told = await this.ask(argv);
    if (!told || job !== this.job) return false;
    let json = null;
    try {
      json = JSON.parse(told.out);
    } catch { /* a refusal prints nothing */ }
    const last = this[key];
    this.set({[key]: {status: told.status, json: json ?? last?.json ?? null, fresh: json !== null, err: told.err.trim().replaceAll('panewright: ', ''), of: job}});
    return json !== null;
  }

  /* Whether the comparison is asked with each edit: the place shows it. */
  get compares() {
    return ['glass', 'house', 'answer'].includes(this.place) || this.showing;
  }

  /* The fit first, since its verdict is waited for; the comparison where the place shows it. */
  async refresh() {
    if (!this.job) return;
    const fits = await this.#json(['fit', '/job', '--format', 'json', '--language', this.language, ...this.say()], 'fit');
    if (this.job && this.compares) await this.#json(['compare', '/job', '--format', 'json', '--language', this.language, ...this.house()], 'compare');
    return fits;
  }

  /* Whether the program itself broke off, which is no fault of the job's. */
  get broke() {
    return this.fit?.status === BROKE;
  }

  /* All openings that the fit holds, over all dwellings. */
  get fitted() {
    const json = this.fit?.json;
    return (json?.dwellings ?? (json ? [json] : [])).flatMap((d) => d.openings);
  }

  get staying() {
    const json = this.fit?.json;
    return (json?.dwellings ?? (json ? [json] : [])).flatMap((d) => d.not_in_order ?? []);
  }

  get notes() {
    const json = this.fit?.json;
    return (json?.dwellings ?? (json ? [json] : [])).flatMap((d) => d.notes);
  }

  /* What is known of the opening in a row: {tag, room, fit, kept, state, line}. */
  opening(row) {
    const t = openings(this.job), tag = t.cell(row, 'tag'), dwelling = t.cell(row, 'dwelling');
    const of = (list) => list.find((o) => o.tag === tag && (o.dwelling ?? '') === dwelling) ?? list.find((o) => o.tag === tag);
    const fit = of(this.fitted), kept = of(this.staying), line = t.line(row);
    const refused = this.refusal('openings.csv', line);
    const left = this.notes.find((n) => n.file === 'openings.csv' && n.line === line && n.kind !== 'default');
    const state = !this.fit ? 'waiting' : refused ? 'unread' : kept ? 'kept' : fit && !left ? fit.said.state : 'unmeasured';
    return {row, tag, room: t.cell(row, 'room'), fit: left ? undefined : fit, kept, state, refused, text: refused || (fit && !left ? fit.said.verdict : (left?.text ?? ''))};
  }

  /* The lines in which the program refused a file: [{line, column, text}], column 0 where it names none. */
  refusals(file) {
    const down = (told) => (told && !told.fresh && told.status !== 0 ? told.err.split('\n') : []);
    const compared = this.compare?.of === this.job || this.compares ? down(this.compare) : [];
    return [...new Set([...down(this.fit), ...compared])].flatMap((text) => {
      const at = text.indexOf(`${file}:`), place = at < 0 ? null : /^(\d+):(?:(\d+):)?/.exec(text.slice(at + file.length + 1));
      return place ? [{line: Number(place[1]), column: Number(place[2] ?? 0), text}] : [];
    });
  }

  /* The program's line when it refused the file at that line, '' else. */
  refusal(file, line) {
    return this.refusals(file).find((r) => r.line === line)?.text ?? '';
  }

  /* Whether it refused that very cell. */
  refuses(file, row, name) {
    const found = row === null ? [] : this.refusals(file);
    if (found.length === 0) return false;
    const t = table(this.job, file), line = t.line(row), column = t.column(name) + 1;
    return found.some((r) => r.line === line && r.column === column);
  }

  /* The default in force of a column or an item, '' where it is given. */
  granted(file, item, tag) {
    const n = this.notes.find((m) => m.kind === 'default' && m.file === file && m.item === item && (tag === undefined || m.where.split(', ').includes(tag) || m.where === ''));
    return n ? n.value : '';
  }

  /* What the comparison took for an item that says nothing. */
  assumed(item) {
    return this.compare?.json?.assumed?.find((a) => a.item === item)?.value ?? '';
  }

  get names() {
    const t = packages(this.job);
    return Array.from({length: t.rows}, (_, r) => t.cell(r, 'package'));
  }

  get title() {
    return itemText(this.job, 'job') || this.job.name;
  }
}

export const textOf = (bytes) => utf8.decode(bytes);
