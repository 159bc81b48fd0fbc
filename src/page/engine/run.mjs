// The page's engine as a command, on the real file system: node run.mjs compare DIR ...
import { readdirSync, readFileSync, readSync, statSync, writeSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { runOnce } from './run_once.mjs';

const require = createRequire(import.meta.url);
const part = (name) => fileURLToPath(new URL(`engine/${name}`, import.meta.url));
const open = require(part('panewright.js'));
const module = new WebAssembly.Module(readFileSync(part('panewright.wasm')));

const inherited = ['/dev', '/proc', '/sys'];
const mount = (FS, engine) => {
  for (const name of readdirSync('/')) {
    const path = `/${name}`;
    let folder = false;
    try {
      folder = statSync(path).isDirectory();
    } catch {
      // a link into nowhere
    }
    if (!folder || inherited.includes(path)) continue;
    if (!FS.analyzePath(path).exists) FS.mkdir(path);
    FS.mount(engine.NODEFS, { root: path }, path);
  }
  FS.chdir(process.cwd());
};

const byte = Buffer.alloc(1);
const stdin = () => (readSync(0, byte, 0, 1, null) === 1 ? byte[0] : null);

const write = (fd, bytes) => {
  for (let at = 0; at < bytes.length; ) at += writeSync(fd, bytes, at);
};

const made = runOnce(open, module, process.argv.slice(2), { before: mount, stdin });
write(1, made.out);
write(2, made.err);
process.exitCode = made.status;
