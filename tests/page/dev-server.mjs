// For work on the views alone: serves the page and answers its engine by the native command. Never shipped.
// node tests/page/dev-server.mjs [port] [build/panewright]
import {execFile} from 'node:child_process';
import {mkdtemp, mkdir, readFile, readdir, rm, writeFile} from 'node:fs/promises';
import http from 'node:http';
import {createRequire} from 'node:module';
import path from 'node:path';

const port = Number(process.argv[2] ?? 8471), program = path.resolve(process.argv[3] ?? 'build/panewright');
const modules = path.resolve('build/page/node/node_modules');
const {build} = createRequire(`${modules}/`)('esbuild');

async function bundle() {
  const made = await build({entryPoints: ['tests/page/dev-main.js'], bundle: true, write: false, format: 'esm', nodePaths: [modules],
    loader: {'.css': 'text'}, tsconfig: 'src/page/tsconfig.json'});
  return made.outputFiles[0].text;
}

async function walk(folder, at = '') {
  const all = [];
  for (const e of await readdir(path.join(folder, at), {withFileTypes: true})) {
    const name = path.join(at, e.name);
    all.push(...(e.isDirectory() ? await walk(folder, name) : [[name, (await readFile(path.join(folder, name))).toString('base64')]]));
  }
  return all;
}

async function run({argv, files}) {
  const root = await mkdtemp('/tmp/panewright-dev-');
  try {
    for (const part of ['job', 'out']) await mkdir(path.join(root, part));
    for (const [name, base64] of files) {
      const to = path.resolve(root, 'job', name);
      await mkdir(path.dirname(to), {recursive: true});
      await writeFile(to, Buffer.from(base64, 'base64'));
    }
    const words = argv.map((w) => w.replace(/^\/(job|out)(?=\/|$)/, `${root}/$1`));
    const told = await new Promise((done) => execFile(program, words, {maxBuffer: 1 << 28}, (failed, out, err) =>
      done({status: failed ? (failed.code ?? 70) : 0, out, err: err.replaceAll(root, '')})));
    return {...told, files: await walk(path.join(root, 'out'), '')};
  } finally {
    await rm(root, {recursive: true});
  }
}

http.createServer(async (req, res) => {
  try {
    if (req.method === 'POST') {
      let text = '';
      for await (const part of req) text += part;
      res.end(JSON.stringify(await run(JSON.parse(text))));
    } else if (req.url.startsWith('/main.js')) {
      res.setHeader('content-type', 'text/javascript');
      res.end(await bundle());
    } else {
      res.setHeader('content-type', 'text/html; charset=utf-8');
      res.end('<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">' +
        '<title>panewright</title><body><div id="page"></div><script type="module" src="/main.js"></script>');
    }
  } catch (why) {
    res.statusCode = 500;
    res.end(String(why));
  }
}).listen(port, () => console.log(`http://localhost:${port}/`));
