// Where a file of a job stands before the program runs: under /job, or beside it for a list that several jobs share
// (`../shared/prices.csv`, as model/folder.js brings it along). A name that would stand anywhere else is refused.
const OWN = ['job', 'out', 'dev', 'proc', 'tmp', 'home'];

export class Refused extends Error {}

const refuse = (name, why) => {
  throw new Refused(`panewright: the job's file ${JSON.stringify(name.slice(0, 60))} ${why}`);
};

/* The path of the name; throws Refused. */
export const pathOf = (name) => {
  const parts = name.split('/');
  const up = parts.findIndex((part) => part !== '..');
  const rest = up < 0 ? [] : parts.slice(up);
  // eslint-disable-next-line no-control-regex
  if (/[\u0000-\u001f\u007f]/.test(name)) refuse(name, 'has a control character in its name');
  if (rest.length === 0 || rest.some((part) => ['', '.', '..'].includes(part)))
    refuse(name, 'has no plain name: want parts between single /, and .. only before them');
  if (up > 0 && OWN.includes(rest[0])) refuse(name, 'would stand where the program keeps its own');
  return up > 0 ? `/${rest.join('/')}` : `/job/${rest.join('/')}`;
};

/* Lays the files of the job; FS is emscripten's. */
export const lay = (FS, files) => {
  const laid = new Set();
  for (const [name, bytes] of files) {
    const path = pathOf(name);
    if (laid.has(path)) refuse(name, 'stands in the same place as another');
    laid.add(path);
    try {
      FS.mkdirTree(path.slice(0, path.lastIndexOf('/')));
      FS.writeFile(path, bytes, { canOwn: true });
    } catch {
      refuse(name, 'cannot stand beside the others: a file and a folder of one name, or too long a name');
    }
  }
};
