// A page that holds the model's modules as window.model, in a browser of its own profile.
import {execFileSync, spawn} from 'node:child_process';
import {existsSync, readFileSync, readdirSync, writeFileSync} from 'node:fs';
import {createServer} from 'node:http';
import {once} from 'node:events';
import {Builder} from 'selenium-webdriver';
import chrome from 'selenium-webdriver/chrome.js';

const HERE = ['http:', '', '127.0.0.1'].join('/'); /* no request ever leaves the machine */
const MODULES = ['job', 'store', 'zip', 'folder', 'history'];

/* One HTML with the modules in it; before: a script that runs first. */
export function htmlOf(dir, before = '') {
  const entry = MODULES.map((m) => `export * as ${m} from './src/page/model/${m}.js';`).join('\n');
  writeFileSync(`${dir}/entry.js`, entry);
  execFileSync('build/page/node/node_modules/.bin/esbuild', ['--bundle', '--format=iife', '--global-name=model', '--log-level=error', `--outfile=${dir}/model.js`],
    {input: entry, env: {...process.env, NODE_PATH: 'build/page/node/node_modules'}});
  const path = `${dir}/page.html`;
  writeFileSync(path, `<!doctype html><meta charset="utf-8"><title>model</title><script>${before}</script><script>${readFileSync(`${dir}/model.js`)}</script>`);
  return path;
}

/* The file on a site of this machine; {url, close}. */
export async function served(path) {
  const server = createServer((_, answer) => answer.setHeader('content-type', 'text/html').end(readFileSync(path)));
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  return {url: `${HERE}:${server.address().port}/`, close: () => server.close()};
}

export async function chromium(profile) {
  const options = new chrome.Options().setChromeBinaryPath('/usr/bin/chromium');
  options.addArguments('--headless=new', '--no-sandbox', '--disable-gpu', '--no-first-run', `--user-data-dir=${profile}`);
  const service = new chrome.ServiceBuilder('/usr/bin/chromedriver');
  const driver = await new Builder().forBrowser('chrome').setChromeOptions(options).setChromeService(service).build();
  await driver.manage().setTimeouts({script: 60000});
  return driver;
}

/* The browser's own process, found by its profile, ended as a crash would. */
export function kill(profile) {
  for (const id of readdirSync('/proc').filter((name) => /^\d+$/.test(name))) {
    try {
      const words = String(readFileSync(`/proc/${id}/cmdline`)).split('\0');
      if (words.includes(`--user-data-dir=${profile}`) && !words.some((w) => w.startsWith('--type='))) process.kill(Number(id), 'SIGKILL');
    } catch { /* ended meanwhile */ }
  }
}

export const hasWebKit = existsSync('/usr/bin/WebKitWebDriver') && existsSync('/usr/bin/xvfb-run');

/* MiniBrowser under a screen of its own; {driver, close}. */
export async function webkit(dir, port) {
  const env = {...process.env, HOME: dir, XDG_DATA_HOME: dir, XDG_CACHE_HOME: dir, WEBKIT_DISABLE_COMPOSITING_MODE: '1', WEBKIT_FORCE_SANDBOX: '0',
    WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: '1', LIBGL_ALWAYS_SOFTWARE: '1', GDK_BACKEND: 'x11'};
  const child = spawn('xvfb-run', ['-a', '/usr/bin/WebKitWebDriver', `--port=${port}`], {env, stdio: 'ignore', detached: true});
  const binary = execFileSync('sh', ['-c', 'ls /usr/lib/*/webkit2gtk-4.*/MiniBrowser | head -1'], {encoding: 'utf8'}).trim();
  const close = () => process.kill(-child.pid, 'SIGTERM');
  for (let n = 0; n < 100; n++) {
    try {
      await fetch(`${HERE}:${port}/status`);
      break;
    } catch {
      await new Promise((done) => setTimeout(done, 100));
    }
  }
  try {
    const driver = await new Builder().usingServer(`${HERE}:${port}`)
      .withCapabilities({browserName: 'MiniBrowser', 'webkitgtk:browserOptions': {binary, args: ['--automation']}}).build();
    await driver.manage().setTimeouts({script: 60000});
    return {driver, close};
  } catch (why) {
    close();
    throw why;
  }
}
