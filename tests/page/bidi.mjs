// Firefox, spoken to by WebDriver BiDi (W3C) over its own port: Debian has no driver for it, and it needs none.
import {spawn} from 'node:child_process';
import {once} from 'node:events';
import {existsSync, mkdirSync, writeFileSync} from 'node:fs';
import {createRequire} from 'node:module';
import path from 'node:path';

const WebSocket = createRequire(path.resolve(process.env.PAGE ?? 'build/page', 'node/node_modules/'))('ws');
const BINARY = '/usr/bin/firefox-esr';
export const hasFirefox = existsSync(BINARY);

/* Of its own accord it shall ask nobody for anything. */
const PREFS = {'app.update.enabled': false, 'browser.safebrowsing.malware.enabled': false, 'browser.safebrowsing.phishing.enabled': false, 'datareporting.policy.dataSubmissionEnabled': false,
  'network.captive-portal-service.enabled': false, 'network.connectivity-service.enabled': false, 'extensions.update.enabled': false, 'browser.shell.checkDefaultBrowser': false,
  'toolkit.telemetry.enabled': false, 'browser.aboutwelcome.enabled': false, 'intl.accept_languages': 'en-US', 'browser.download.folderList': 2};

class Line {
  #socket;
  #waiting = new Map();
  #id = 0;
  heard = [];

  async open(url) {
    this.#socket = new WebSocket(url, {perMessageDeflate: false});
    await once(this.#socket, 'open');
    this.#socket.on('message', (data) => {
      const told = JSON.parse(data);
      if (told.id === undefined || told.id === null) return this.heard.push(told);
      const {done, no} = this.#waiting.get(told.id);
      this.#waiting.delete(told.id);
      if (told.type === 'error') no(new Error(`${told.error}: ${told.message}`));
      else done(told.result);
    });
  }

  ask(method, params) {
    const id = ++this.#id;
    return new Promise((done, no) => {
      this.#waiting.set(id, {done, no});
      this.#socket.send(JSON.stringify({id, method, params}));
    });
  }

  close() {
    this.#socket.close();
  }
}

/* {browser (as Hands wants it), requests(), files(css, paths), print(), close()}. */
export async function firefox(dir) {
  const profile = `${dir}/firefox`;
  mkdirSync(profile, {recursive: true});
  writeFileSync(`${profile}/user.js`, Object.entries({...PREFS, 'browser.download.dir': dir}).map(([k, v]) => `user_pref(${JSON.stringify(k)}, ${JSON.stringify(v)});\n`).join(''));
  const child = spawn(BINARY, ['--headless', '--no-remote', '--remote-debugging-port=0', '--profile', profile], {env: {...process.env, HOME: dir, MOZ_REMOTE_SETTINGS_DEVTOOLS: '0'}, stdio: ['ignore', 'ignore', 'pipe']});
  const address = await new Promise((done, no) => {
    let said = '';
    child.stderr.on('data', (text) => {
      said += text;
      const found = /WebDriver BiDi listening on (ws:\S+)/.exec(said);
      if (found) done(found[1]);
    });
    child.on('exit', () => no(new Error(said)));
  });
  const line = new Line();
  await line.open(`${address}/session`);
  await line.ask('session.new', {capabilities: {}});
  await line.ask('session.subscribe', {events: ['network.beforeRequestSent', 'log.entryAdded']});
  const context = (await line.ask('browsingContext.getTree', {})).contexts[0].context;

  const js = async (script, ...values) => {
    const {result, exceptionDetails} = await line.ask('script.callFunction', {functionDeclaration: `async (values) => {
      const value = await (async function () { ${script} })(...JSON.parse(values));
      return JSON.stringify(value instanceof Node ? true : value) ?? 'null'; }`,
      arguments: [{type: 'string', value: JSON.stringify(values)}], target: {context}, awaitPromise: true});
    if (exceptionDetails) throw new Error(exceptionDetails.text);
    return JSON.parse(result.value);
  };
  const act = (...actions) => line.ask('input.performActions', {context, actions});
  const point = (pointerType) => (x, y) => act({type: 'pointer', id: pointerType, parameters: {pointerType}, actions: [{type: 'pointerMove', x, y}, {type: 'pointerDown', button: 0}, {type: 'pointerUp', button: 0}]});
  const down = (value) => ({type: 'keyDown', value}), up = (value) => ({type: 'keyUp', value});
  return {
    browser: {
      js,
      open: (url) => line.ask('browsingContext.navigate', {context, url, wait: 'complete'}),
      mouse: point('mouse'),
      touch: point('touch'),
      keys: (...keys) => act({type: 'key', id: 'keys', actions: keys.flatMap((text) => [...text]).flatMap((k) => [down(k), up(k)])}),
      chord: (...keys) => act({type: 'key', id: 'keys', actions: [...keys.map(down), ...keys.map(up).reverse()]}),
      size: ([width, height]) => line.ask('browsingContext.setViewport', {context, viewport: {width, height}}),
    },
    requests: () => line.heard.filter((e) => e.method === 'network.beforeRequestSent').map((e) => e.params.request.url).filter((url) => !/^(file|blob|data|about):/.test(url)),
    errors: () => line.heard.filter((e) => e.method === 'log.entryAdded' && e.params.level === 'error').map((e) => e.params.text),
    files: async (css, files) => {
      const {result} = await line.ask('script.evaluate', {expression: `document.querySelector(${JSON.stringify(css)})`, target: {context}, awaitPromise: false});
      await line.ask('input.setFiles', {context, element: {sharedId: result.sharedId}, files});
    },
    close: async () => {
      const ended = once(child, 'exit');
      await line.ask('browser.close', {}).catch(() => child.kill());
      await ended;
    },
  };
}
