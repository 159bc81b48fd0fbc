// Job folders among files: what came in a .zip or a picked folder, and how a job is laid out when it goes out.
import {Table} from './table.js';
import {same} from './bytes.js';

export const MOST_FILES = 1000;
const MOST_BYTES = 50 * 2 ** 20;

/* Left behind by desktops, part of no job. */
const isLitter = (path) => /(^|\/)(__MACOSX\/|\.DS_Store$|\._|Thumbs\.db$|desktop\.ini$)/i.test(path);

/* The path with / between its parts; throws when it could lead out of the place where it is unpacked. */
export function safePath(path) {
  const shown = JSON.stringify(path.length > 60 ? `${path.slice(0, 60)}...` : path);
  const parts = path.replaceAll('\\', '/').split('/');
  // eslint-disable-next-line no-control-regex
  if (/[\u0000-\u001f\u007f]/.test(path)) throw new Error(`the name ${shown} holds a control character`);
  if (/^[\\/]|^[A-Za-z]:/.test(path)) throw new Error(`the name ${shown} is absolute; want names inside the folder`);
  if (parts.includes('..')) throw new Error(`the name ${shown} leads out of the folder`);
  if (path.length > 400 || parts.length > 20) throw new Error(`the name ${shown} is too long`);
  return parts.filter((p) => p !== '.' && p !== '').join('/');
}

/* Counts files and bytes as they come in, and refuses before they are too many or one stands twice. */
export class Intake {
  files = new Map();
  #bytes = 0;
  #names = new Set();
  #folders = new Set();

  /* Before a file is read: its path when it is wanted, null for litter. */
  admit(name) {
    const path = safePath(name);
    if (path === '' || isLitter(path)) return null;
    const key = path.toLowerCase();
    if (this.#names.has(key)) throw new Error(`it holds ${JSON.stringify(path)} twice (letters of either case)`);
    if (this.#names.size === MOST_FILES) throw new Error(`it holds more than ${MOST_FILES} files, which no job does`);
    this.#names.add(key);
    for (let at = key.indexOf('/'); at > 0; at = key.indexOf('/', at + 1)) this.#folders.add(key.slice(0, at));
    return path;
  }

  count(bytes) {
    this.#bytes += bytes;
    if (this.#bytes > MOST_BYTES) throw new Error(`it unpacks to more than ${MOST_BYTES / 2 ** 20} MB, which no job does`);
  }

  put(path, bytes) {
    this.files.set(path, bytes);
  }

  done() {
    for (const name of this.#names) if (this.#folders.has(name)) throw new Error(`${JSON.stringify(name)} is a file and a folder at once`);
    return this.files;
  }
}

const folderOf = (path) => path.slice(0, path.lastIndexOf('/') + 1);

/* a/b/ + ../c.csv = a/c.csv; null when it leads above the top. */
function resolve(folder, name) {
  const parts = folder.split('/').filter(Boolean);
  for (const p of name.split('/')) {
    if (p === '..' && parts.pop() === undefined) return null;
    if (p !== '..' && p !== '.' && p !== '') parts.push(p);
  }
  return parts.join('/');
}

/* Cells of the job's own CSV files that name one of the files beside it: job.csv's shared lists, weather, sections. */
function shared(folder, own, files) {
  const found = new Map();
  for (const [name, bytes] of own) {
    if (name.includes('/') || !/\.csv$/i.test(name)) continue;
    const t = Table.read(bytes);
    for (let r = 0; r < t.rows; r++)
      for (let c = 0; c < t.head.length; c++) {
        const text = t.cell(r, c);
        const path = text.includes('../') && text[0] !== '/' ? resolve(folder, text) : null;
        const there = path === null || path.startsWith(folder) ? undefined : files.get(path);
        if (there) found.set(upward(folder, path), there);
      }
  }
  return found;
}

/* path as seen from the folder: ../shared/prices.csv. */
function upward(folder, path) {
  const from = folder.split('/').filter(Boolean), to = path.split('/');
  let n = 0;
  while (n < from.length && n < to.length - 1 && from[n] === to[n]) n++;
  return [...from.slice(n).map(() => '..'), ...to.slice(n)].join('/');
}

/* The jobs among files (Map path -> bytes): each {name, files, left}; left: paths that belong to no job. */
export function jobsAmong(files, topName) {
  const all = [...files.keys()].filter((path) => path.split('/').pop() === 'job.csv').map(folderOf);
  const tops = all.filter((f) => !all.some((g) => g !== f && f.startsWith(g))).sort();
  if (tops.length === 0) throw new Error('it holds no job.csv: a job is a folder with job.csv, openings.csv and packages.csv');
  const used = new Set();
  const jobs = tops.map((folder) => {
    const own = new Map();
    for (const [path, bytes] of files) {
      if (!path.startsWith(folder)) continue;
      own.set(path.slice(folder.length), bytes);
      used.add(path);
    }
    const beside = shared(folder, own, files);
    for (const path of beside.keys()) used.add(resolve(folder, path));
    return {name: folder.split('/').at(-2) || topName || 'job', files: new Map([...own, ...beside])};
  });
  const left = [...files.keys()].filter((path) => !used.has(path));
  return jobs.map((job) => ({...job, left}));
}

export function theJobAmong(files, topName) {
  const jobs = jobsAmong(files, topName);
  if (jobs.length > 1) throw new Error(`it holds ${jobs.length} jobs (${jobs.slice(0, 3).map((j) => j.name).join(', ')} ...); want one`);
  return jobs[0];
}

/* A name that every desktop takes for a folder. */
export function folderName(name) {
  // eslint-disable-next-line no-control-regex
  const plain = name.normalize('NFC').replace(/[\u0000-\u001f\u007f<>:"/\\|?*]/g, '_').replace(/^[. ]+|[. ]+$/g, '').slice(0, 80);
  return plain === '' || /^(con|prn|aux|nul|com\d|lpt\d)$/i.test(plain) ? `job ${plain}`.trim() : plain;
}

/* Where each of the job's files goes: NAME/job.csv, and files beside the job beside NAME. As many folders lie above NAME as the
 * job's names step up. Sorted, so that the same job gives the same list. */
export function laidOut(job) {
  const steps = (name) => name.split('/').filter((p) => p === '..').length;
  const most = Math.max(1, ...[...job.files.keys()].map(steps));
  const base = `${'jobs/'.repeat(most - 1)}${folderName(job.name)}/`;
  const paths = [...job.files].map(([name, bytes]) => [resolve(base, name), bytes]);
  return new Map(paths.sort(([a], [b]) => (a < b ? -1 : 1)));
}

// ---------------------------------------------------------------- folders of the device

/* Files of <input type=file webkitdirectory>: each has webkitRelativePath. */
export async function readFileList(list) {
  const intake = new Intake();
  for (const file of list) await take(intake, file.webkitRelativePath || file.name, file);
  return jobsAmong(intake.done(), 'job');
}

/* A folder picked by showDirectoryPicker. */
export async function readFolder(handle) {
  const intake = new Intake();
  const walk = async (folder, path) => {
    for await (const [name, entry] of folder.entries()) {
      if (entry.kind === 'directory') await walk(entry, `${path}${name}/`);
      else await take(intake, `${path}${name}`, await entry.getFile());
    }
  };
  await walk(handle, '');
  return jobsAmong(intake.done(), handle.name);
}

async function take(intake, name, file) {
  const path = intake.admit(name);
  if (path === null) return;
  intake.count(file.size);
  intake.put(path, new Uint8Array(await file.arrayBuffer()));
}

/* Writes the job as a folder of its own into a picked folder; nothing that is there is overwritten. A shared file that is there
 * with the same bytes stays; with others the whole goes into a folder around it. Returns the name of the folder made. */
export async function writeFolder(handle, job) {
  const own = [...job.files.keys()].every((name) => !name.startsWith('../'));
  const name = await freeFolder(handle, folderName(job.name));
  let root = handle;
  if (!own) root = await handle.getDirectoryHandle(name, {create: true});
  for (const [path, bytes] of laidOut(own ? {...job, name} : job)) {
    const parts = path.split('/');
    let folder = root;
    for (const part of parts.slice(0, -1)) folder = await folder.getDirectoryHandle(part, {create: true});
    const file = await folder.getFileHandle(parts.at(-1), {create: true});
    const stream = await file.createWritable();
    await stream.write(bytes);
    await stream.close();
    const back = new Uint8Array(await (await file.getFile()).arrayBuffer());
    if (!same(back, bytes)) throw new Error(`${path} was not written whole`);
  }
  return name;
}

async function freeFolder(handle, name) {
  const names = new Set();
  for await (const [there] of handle.entries()) names.add(there.toLowerCase());
  let free = name;
  for (let n = 2; names.has(free.toLowerCase()); n++) free = `${name} ${n}`;
  return free;
}
