// Puts the page together: panewright.html, one file with all in it, and site/, the same as static files.
//   node src/page/tools/assemble.mjs PAGE [ENTRY CSS TO]
// With ENTRY and CSS, that page alone is made as TO (for tests).
import { createHash } from 'node:crypto';
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { resolve } from 'node:path';
import { toText } from '../engine/base85.js';
import { licencesOf } from './licences.mjs';

const [page, entry = 'src/page/page.js', css = 'src/page/view/style.css', to = `${page}/panewright.html`] =
  process.argv.slice(2);
const modules = resolve(page, 'node/node_modules');
const { buildSync } = createRequire(`${modules}/`)('esbuild');
const PARTS = ['panewright.wasm', 'worker.js', 'gnuplot.wasm'];
const MOST = 4e6; // bytes of the one file

const { list: licences, text: terms } = licencesOf(page);

const bundled = (file) =>
  buildSync({
    entryPoints: [file],
    bundle: true,
    minify: true,
    format: 'iife',
    charset: 'utf8',
    target: 'es2021',
    loader: { '.csv': 'text' },
    jsx: 'automatic',
    jsxImportSource: 'preact',
    nodePaths: [modules],
    define: { LICENCES: JSON.stringify(licences) },
    logLevel: 'warning',
    write: false,
  }).outputFiles[0].text.trim();

const hash = (bytes, form) => createHash('sha256').update(bytes).digest(form);
// What any browser unpacks, by a packer that looks longer than zlib's own: a twentieth less.
const packed = (bytes) => execFileSync('libdeflate-gzip', ['-12', '-n', '-c'], { input: bytes, maxBuffer: 1 << 28 });
const parts = [
  ...PARTS.map((name) => [name, packed(readFileSync(`${page}/engine/${name}`))]),
  ['licences.txt', packed(terms)],
];

const policy = (own, script, more) =>
  `default-src 'none'; script-src ${script} 'wasm-unsafe-eval'; worker-src blob:${own}; style-src 'unsafe-inline'; ` +
  `img-src data: blob:; base-uri 'none'; form-action 'none'${more}`;

const htmlOf = (rules, head, body) => `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${rules}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>panewright</title>
<link rel="icon" href="data:image/svg+xml;base64,${icon}">
<style>${style.replaceAll('</style', '<\\/style')}</style>
${head}</head>
<body>
<div id="page"></div>
${body}
</body>
</html>
`;

// Not a script to the browser, so no policy asks for its hash.
const block = ([name, bytes]) =>
  `<script type="application/gzip" id="part ${name}">${toText(bytes)}</script>`;

const icon = readFileSync('src/page/site/icon.svg', 'base64');
const script = bundled(entry).replaceAll('</script', '<\\/script');
const style = bundled(css);
const single = htmlOf(
  policy('', `'sha256-${hash(script, 'base64')}'`, ''),
  '',
  `${parts.map(block).join('\n')}\n<script>${script}</script>`,
);
writeFileSync(to, single);
const size = Buffer.byteLength(single);
console.log(`  ${to}: ${size} bytes`);
for (const [name, bytes] of parts) console.log(`    ${name}: ${bytes.length} gzipped`);
if (size > MOST) { console.error(`panewright.html is over ${MOST} bytes`); process.exit(1); }
if (process.argv.length > 3) process.exit(0);

const site = `${page}/site`;
rmSync(site, { recursive: true, force: true });
mkdirSync(`${site}/parts`, { recursive: true });
cpSync('src/page/site', site, { recursive: true });
const put = (name, bytes) => writeFileSync(`${site}/${name}`, bytes);
parts.forEach(([name, bytes]) => put(`parts/${name}.gz`, bytes));
put('page.js', script);
put(
  'index.html',
  htmlOf(
    policy(" 'self'", "'self'", "; manifest-src 'self'; connect-src 'self'"),
    '<link rel="manifest" href="manifest.webmanifest">\n<script src="page.js" defer></script>\n',
    '',
  ),
);
// Its own state in its name: a new page is a new cache.
const files = readdirSync(site, { recursive: true, withFileTypes: true })
  .filter((f) => f.isFile())
  .map((f) => `${f.parentPath ?? f.path}/${f.name}`.slice(site.length + 1))
  .filter((name) => name !== 'service.js')
  .sort();
const state = hash(files.map((name) => hash(readFileSync(`${site}/${name}`), 'hex')).join(), 'hex').slice(0, 16);
const service = readFileSync(`${site}/service.js`, 'utf8');
put('service.js', `const STATE = '${state}';\nconst FILES = ${JSON.stringify(['./', ...files])};\n${service}`);
console.log(`  ${site}: ${files.length + 1} files`);
