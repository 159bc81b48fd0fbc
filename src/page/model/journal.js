// The last of what was typed, written down at once: a transaction of IndexedDB takes its time, and a tab that is ended takes those
// in hand with it. What localStorage takes is out of the tab's hands when the call returns.

const KEY = 'panewright typed ';
const MOST = 2 ** 19; /* bytes; typing is less, a year of weather is no typing */

const store = () => {
  try {
    return globalThis.localStorage ?? null;
  } catch { /* such a page has none */
    return null;
  }
};

/* Bytes as text of one letter each, and back. */
const letters = (bytes) => Array.from({length: Math.ceil(bytes.length / 8192)}, (_, i) => String.fromCharCode(...bytes.subarray(i * 8192, (i + 1) * 8192))).join('');
const bytesOf = (text) => Uint8Array.from(text, (c) => c.charCodeAt(0));

/* Notes the job's state `version`; kept: {version, files} as the disk has them, so that only what differs is noted. */
export function note(job, version, kept) {
  const files = [...job.files].filter(([name, bytes]) => kept.files.get(name) !== bytes);
  try {
    if (files.reduce((n, [, bytes]) => n + bytes.length, 0) > MOST) store()?.removeItem(KEY + job.id);
    else store()?.setItem(KEY + job.id, JSON.stringify({from: kept.version, version, name: job.name, names: [...job.files.keys()], files: files.map(([name, bytes]) => [name, letters(bytes)])}));
  } catch { /* full: the disk has it a moment later */
    strike(job.id);
  }
}

export function strike(id) {
  try {
    store()?.removeItem(KEY + id);
  } catch { /* nothing was noted */ }
}

/* The job (as the disk has it, in state `version`) with what was noted after it; null where nothing was: {job, version}. */
export function noted(job, version) {
  try {
    const last = JSON.parse(store()?.getItem(KEY + job.id) ?? 'null');
    if (!last || last.version <= version || last.from > version) return null;
    const files = new Map([...job.files, ...last.files.map(([name, text]) => [name, bytesOf(text)])]);
    return {version: last.version, job: {...job, name: last.name, files: new Map(last.names.map((name) => [name, files.get(name)]))}};
  } catch {
    return null;
  }
}
