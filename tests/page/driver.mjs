// A browser that opens the page, and what is asked of every view.
import {readFileSync, readdirSync} from 'node:fs';
import {createRequire} from 'node:module';
import path from 'node:path';
import {Key} from './hands.mjs';

const modules = path.resolve(process.env.PAGE ?? 'build/page', 'node/node_modules');
const require = createRequire(`${modules}/`);
export const {Builder, By, logging} = require('selenium-webdriver');
const chrome = require('selenium-webdriver/chrome');
export const axe = readFileSync(`${modules}/axe-core/axe.min.js`, 'utf8');

export const SIZES = [[390, 844], [820, 1180], [1280, 800]];

export async function openBrowser(downloads) {
  const logs = new logging.Preferences();
  logs.setLevel('performance', logging.Level.ALL);
  logs.setLevel('browser', logging.Level.ALL);
  const options = new chrome.Options().addArguments('--headless=new', '--no-sandbox', '--disable-gpu', '--lang=en-US').setChromeBinaryPath('/usr/bin/chromium');
  options.setLoggingPrefs(logs);
  const driver = await new Builder().forBrowser('chrome').setChromeOptions(options).setChromeService(new chrome.ServiceBuilder('/usr/bin/chromedriver')).build();
  await driver.sendDevToolsCommand('Browser.setDownloadBehavior', {behavior: 'allow', downloadPath: downloads});
  await driver.manage().setTimeouts({script: 60_000});
  return driver;
}

/* What a driver can do, as Hands wants it. */
export const worked = (driver) => ({
  js: async (script, ...values) => {
    const {value, why} = await driver.executeAsyncScript(`const done = arguments[arguments.length - 1];
      (async function () { ${script} })(...[...arguments].slice(0, -1)).then((value) => done({value}), (why) => done({why: String(why)}))`, ...values);
    if (why !== undefined) throw new Error(why);
    return value;
  },
  open: (url) => driver.get(url),
  mouse: (x, y) => driver.actions().move({x, y, duration: 0}).click().perform(),
  keys: (...keys) => driver.actions().sendKeys(...keys).perform(),
  chord: (...keys) => {
    const held = keys.slice(0, -1), all = driver.actions();
    held.forEach((k) => all.keyDown(k));
    all.sendKeys(keys.at(-1));
    held.forEach((k) => all.keyUp(k));
    return all.perform();
  },
});

/* Chromium, by its driver. */
export const chromium = (driver) => ({...worked(driver),
  touch: async (x, y) => {
    await driver.sendDevToolsCommand('Input.dispatchTouchEvent', {type: 'touchStart', touchPoints: [{x, y}]});
    await driver.sendDevToolsCommand('Input.dispatchTouchEvent', {type: 'touchEnd', touchPoints: []});
  },
  size: async ([width, height], theme = 'light') => {
    await driver.sendDevToolsCommand('Emulation.setDeviceMetricsOverride', {width, height, screenWidth: width, screenHeight: height, deviceScaleFactor: 1, mobile: width < 1000});
    await driver.sendDevToolsCommand('Emulation.setEmulatedMedia', {features: [{name: 'prefers-color-scheme', value: theme}]});
    await driver.executeAsyncScript(SIZED, width, theme);
  }});

/* Waits until the page has that size and theme and was laid out anew; a tab out of sight draws no frames. */
const SIZED = `const [width, theme, done] = arguments, end = performance.now() + 5000;
  const twice = () => { requestAnimationFrame(() => requestAnimationFrame(done)); setTimeout(done, 100); };
  (function look() {
    if ((screen.width === width && matchMedia('(prefers-color-scheme: ' + theme + ')').matches) || performance.now() > end) twice();
    else setTimeout(look, 5);
  })();`;

/* What axe finds, one line each. It is brought in once for each page that is loaded. */
export async function faults(driver) {
  if (!(await driver.executeScript('return Boolean(window.axe)'))) await driver.executeScript(axe);
  return driver.executeAsyncScript(`const done = arguments[0];
    axe.run(document, {iframes: false, selectors: false, resultTypes: ['violations']}).then((r) => done(r.violations.map((v) => v.id + ': ' + v.nodes[0].html.slice(0, 160) + ' ' + (v.nodes[0].any[0]?.message ?? ''))))`);
}

/* What is wider than its place, and what a thumb cannot hit: less than 44 px either way. A word in a sentence is as wide as it is. */
export const cramped = (driver) => driver.executeScript(`const all = [];
  if (document.documentElement.scrollWidth > innerWidth) all.push('page is ' + document.documentElement.scrollWidth + ' wide');
  for (const m of document.querySelectorAll('main, header, nav, footer')) if (m.scrollWidth > m.clientWidth + 1) all.push(m.localName + ' is ' + m.scrollWidth + ' wide in ' + m.clientWidth);
  for (const b of document.querySelectorAll('button, select, input, summary, a[href], label.button, .switch label')) {
    const box = b.getBoundingClientRect();
    if (box.width && b.checkVisibility() && !['radio', 'file'].includes(b.type) && (box.height < 43.99 || box.width < 43.99)) all.push(b.localName + ' ' + (b.textContent || b.id) + ' is ' + Math.round(box.width) + 'x' + Math.round(box.height));
  }
  return all`);

/* Text that stands outside the window or is cut off, where nothing scrolls to it. */
export const spill = (driver) => driver.executeScript(`const all = [], texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT), range = document.createRange();
  const hidden = (e) => e.closest('.unseen, script, style, option, [aria-hidden=true]') || !e.checkVisibility({visibilityProperty: true, opacityProperty: true});
  for (let n = texts.nextNode(); n; n = texts.nextNode()) {
    if (!n.data.trim() || hidden(n.parentElement)) continue;
    range.selectNodeContents(n);
    for (const box of range.getClientRects()) {
      let bad = '';
      for (let e = n.parentElement; e && !bad; e = e.parentElement) {
        const style = getComputedStyle(e), room = e.getBoundingClientRect();
        if (style.clipPath !== 'none' || ['auto', 'scroll'].includes(style.overflowX) || style.textOverflow === 'ellipsis') break;
        if (style.overflowX !== 'visible' && (box.right > room.right + 1 || box.left < room.left - 1)) bad = 'is cut off by ' + e.localName + '.' + e.className;
        if (!e.parentElement && (box.right > innerWidth + 1 || box.left < -1)) bad = 'stands outside the window';
      }
      if (bad) all.push(JSON.stringify(n.data.trim().slice(0, 60)) + ' ' + bad + ' at ' + Math.round(box.left) + ' to ' + Math.round(box.right));
    }
  }
  return all`);

/* What can be worked and is not reached by the Tab key, or has no mark when it is, or is then hidden behind something. */
export async function unreached(driver) {
  await driver.executeScript(`document.activeElement?.blur();
    window.wanted = new Set([...document.querySelectorAll('button, select, input, summary, [tabindex="0"], iframe')].filter((e) => !e.disabled && e.checkVisibility() && !(e.type === 'radio' && !e.checked)));
    window.unmarked = new Set();
    document.addEventListener('keydown', window.reached = () => { /* at the next key: until then what has the focus was scrolled into sight */
      const e = document.activeElement;
      if (e === document.body || !window.wanted.delete(e)) return;
      if (e.type === 'radio') for (const r of document.getElementsByName(e.name)) window.wanted.delete(r);
      const marks = [e, e.nextElementSibling, e.closest('label')].filter(Boolean).map((m) => getComputedStyle(m)), box = e.getBoundingClientRect();
      if (e.localName !== 'iframe' && !marks.some((s) => s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2)) window.unmarked.add('no mark: ' + e.outerHTML.slice(0, 120));
      const x = (Math.max(0, box.left) + Math.min(innerWidth, box.right)) / 2, y = (Math.max(0, box.top) + Math.min(innerHeight, box.bottom)) / 2, hit = document.elementFromPoint(x, y);
      if (hit && !e.contains(hit) && !hit.contains(e)) window.unmarked.add(hit.outerHTML.slice(0, 80) + ' lies over ' + e.outerHTML.slice(0, 120));
      if (!hit) window.unmarked.add('outside the window: ' + e.outerHTML.slice(0, 120));
    }, true);
    window.onblur = () => window.wanted.delete(document.activeElement); /* into a frame, whose keys are its own */`);
  for (let left = 1, n = 0; left > 0 && n < 16; n++) {
    await driver.actions().sendKeys(...Array(25).fill(Key.TAB)).perform();
    left = await driver.executeScript('return window.wanted.size');
  }
  return driver.executeScript(`document.removeEventListener('keydown', window.reached, true);
    window.onblur = null;
    return [...[...window.wanted].map((e) => 'not reached: ' + e.outerHTML.slice(0, 140)), ...window.unmarked]`);
}

/* Memory of the largest process that draws a page of this browser, MB; its workers are in it. */
export async function memory(driver) {
  const {userDataDir} = (await driver.getCapabilities()).get('chrome');
  const each = readdirSync('/proc').filter((id) => /^\d+$/.test(id)).map((id) => {
    try {
      const words = readFileSync(`/proc/${id}/cmdline`, 'utf8');
      if (!words.includes('--type=renderer') || !words.includes(userDataDir)) return 0;
      return Number(/^Pss: *(\d+)/m.exec(readFileSync(`/proc/${id}/smaps_rollup`, 'utf8'))[1]) / 1024;
    } catch { /* ended meanwhile */
      return 0;
    }
  });
  return Math.max(...each);
}

/* Addresses asked for since the last call, but for the page's own parts. */
export async function requests(driver) {
  const all = await driver.manage().logs().get('performance');
  return all.map((l) => JSON.parse(l.message).message).filter((m) => m.method === 'Network.requestWillBeSent').map((m) => m.params.request.url)
    .filter((url) => !/^(file|blob|data|about):/.test(url));
}

export const errors = async (driver) => (await driver.manage().logs().get('browser')).filter((l) => l.level.name === 'SEVERE').map((l) => l.message);
