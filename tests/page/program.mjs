// The native program as the engine of a test: run(argv, files) with /job and /out as folders of their own.
import {execFileSync, spawnSync} from 'node:child_process';
import {mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import {dirname, join, relative, resolve} from 'node:path';

export const PROGRAM = resolve(process.env.BUILD ?? 'build', 'panewright');

export function folder(t) {
  const dir = mkdtempSync(join(tmpdir(), 'page-model-'));
  t.after(() => rmSync(dir, {recursive: true}));
  return dir;
}

export function writeAll(dir, files) {
  for (const [name, bytes] of files) {
    mkdirSync(dirname(join(dir, name)), {recursive: true});
    writeFileSync(join(dir, name), bytes);
  }
}

export function readAll(dir) {
  const entries = readdirSync(dir, {recursive: true, withFileTypes: true}).filter((e) => e.isFile());
  return new Map(entries.map((e) => join(e.path, e.name)).sort().map((path) => [relative(dir, path), new Uint8Array(readFileSync(path))]));
}

export function engine(t) {
  return async (argv, files) => {
    const dir = folder(t), here = (word) => word.replace(/^\/(job|out)(?=\/|$)/, `${dir}/$1`);
    mkdirSync(`${dir}/out`);
    writeAll(`${dir}/job`, files);
    const run = spawnSync(PROGRAM, argv.map(here), {encoding: 'utf8'});
    return {status: run.status, out: run.stdout, err: run.stderr, files: readAll(`${dir}/out`)};
  };
}

/* Outputs of a job in a folder by its name alone, so that two places give the same text. */
export function figures(dir, name) {
  const print = (...argv) => {
    const run = spawnSync(PROGRAM, argv, {cwd: dir, encoding: 'utf8'});
    return `${run.status}\n${run.stdout}\n${run.stderr}`;
  };
  return ['text', 'json', 'csv'].map((format) => print('compare', name, '--format', format) + print('fit', name, '--format', format)).join('\n');
}

/* .zip files made by Python's zipfile, each from lines of Python that use z (a ZipFile); one start of Python for all. */
export function pythonZips(codes) {
  const make = `
import io, json, sys, zipfile
for code in json.load(sys.stdin):
    out = io.BytesIO()
    with zipfile.ZipFile(out, 'w', zipfile.ZIP_DEFLATED) as z:
        exec(code)
    print(out.getvalue().hex())`;
  const run = execFileSync('python3', ['-W', 'ignore', '-c', make], {input: JSON.stringify(codes), maxBuffer: 1 << 28});
  return String(run).split('\n').slice(0, -1).map((line) => new Uint8Array(Buffer.from(line, 'hex')));
}

/* Milliseconds of this process's own time that f takes. */
export function cost(f) {
  const before = process.cpuUsage();
  f();
  const used = process.cpuUsage(before);
  return (used.user + used.system) / 1000;
}

/* What Python's zipfile reads, after its own test of every checksum. */
export function pythonUnzip(t, zips) {
  const dir = folder(t);
  zips.forEach((bytes, i) => writeFileSync(join(dir, `${i}.zip`), bytes));
  execFileSync('python3', ['-c', `import zipfile
for i in range(${zips.length}):
    z = zipfile.ZipFile(f'{i}.zip')
    assert z.testzip() is None
    z.extractall(f'got/{i}')`], {cwd: dir});
  return zips.map((_, i) => join(dir, 'got', String(i)));
}
