// A browser that opens the page, and what is asked of every view.
import {readFileSync} from 'node:fs';
import {createRequire} from 'node:module';
import path from 'node:path';

const modules = path.resolve(process.env.PAGE ?? 'build/page', 'node/node_modules');
const require = createRequire(`${modules}/`);
export const {Builder, By, Key, logging} = require('selenium-webdriver');
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

export async function look(driver, [width, height], theme = 'light') {
  await driver.sendDevToolsCommand('Emulation.setDeviceMetricsOverride', {width, height, deviceScaleFactor: 1, mobile: width < 1000});
  await driver.sendDevToolsCommand('Emulation.setEmulatedMedia', {features: [{name: 'prefers-color-scheme', value: theme}]});
  await driver.sleep(150);
}

/* The button, fold or label whose text begins so. */
export async function press(driver, text) {
  const found = await driver.wait(() => driver.executeScript(`return [...document.querySelectorAll('button,summary,label.button')].find((b) => b.textContent.trim().startsWith(arguments[0]) && !b.disabled && b.checkVisibility())`, text), 30_000, `no button ${text}`);
  await driver.executeScript('arguments[0].scrollIntoView({block: "center", inline: "center"})', found);
  await found.click();
}

/* What axe finds, one line each. */
export async function faults(driver) {
  await driver.executeScript(axe);
  return driver.executeAsyncScript(`const done = arguments[0];
    axe.run(document, {iframes: false}).then((r) => done(r.violations.map((v) => v.id + ': ' + v.nodes[0].html.slice(0, 160) + ' ' + (v.nodes[0].any[0]?.message ?? ''))))`);
}

/* What is wider than its place, and what a thumb cannot hit. */
export const cramped = (driver) => driver.executeScript(`const all = [];
  if (document.documentElement.scrollWidth > innerWidth) all.push('page is ' + document.documentElement.scrollWidth + ' wide');
  for (const m of document.querySelectorAll('main, header, nav, footer')) if (m.scrollWidth > m.clientWidth + 1) all.push(m.localName + ' is ' + m.scrollWidth + ' wide in ' + m.clientWidth);
  for (const b of document.querySelectorAll('button, select, input, summary, label.button, .switch label')) {
    const box = b.getBoundingClientRect();
    if (box.width && !['radio', 'file'].includes(b.type) && (box.height < 43.5 || box.width < 43.5)) all.push(b.localName + ' ' + (b.textContent || b.id) + ' is ' + Math.round(box.width) + 'x' + Math.round(box.height));
  }
  return all`);

/* What can be worked and is not reached by the Tab key. */
export async function unreached(driver) {
  await driver.executeScript(`document.activeElement?.blur();
    window.wanted = new Set([...document.querySelectorAll('button, select, input, summary, [tabindex="0"], iframe')].filter((e) => !e.disabled && e.checkVisibility() && !(e.type === 'radio' && !e.checked)));
    document.addEventListener('focusin', window.reached = (e) => { window.wanted.delete(e.target); if (e.target.type === 'radio') for (const r of document.getElementsByName(e.target.name)) window.wanted.delete(r); })`);
  for (let left = 1, n = 0; left > 0 && n < 12; n++) {
    await driver.actions().sendKeys(...Array(25).fill(Key.TAB)).perform();
    left = await driver.executeScript('return window.wanted.size');
  }
  return driver.executeScript(`document.removeEventListener('focusin', window.reached);
    return [...window.wanted].map((e) => e.outerHTML.slice(0, 140))`);
}

/* Addresses asked for since the last call, but for the page's own parts. */
export async function requests(driver) {
  const all = await driver.manage().logs().get('performance');
  return all.map((l) => JSON.parse(l.message).message).filter((m) => m.method === 'Network.requestWillBeSent').map((m) => m.params.request.url)
    .filter((url) => !/^(file|blob|data|about):/.test(url));
}

/* The jobs that the browser keeps: [{id, name, files: {name: base64}}]. */
export const keptJobs = (driver) => driver.executeAsyncScript(`const done = arguments[0];
  const open = indexedDB.open('panewright');
  open.onsuccess = () => {
    const tx = open.result.transaction(['jobs', 'files']), all = [];
    tx.objectStore('jobs').getAll().onsuccess = (e) => {
      for (const row of e.target.result.filter((r) => !r.removed)) {
        const job = {id: row.id, name: row.name, files: {}};
        all.push(job);
        for (const name of row.names) tx.objectStore('files').get([row.id, name]).onsuccess = (f) => {
          job.files[name] = btoa(Array.from(f.target.result, (b) => String.fromCharCode(b)).join(''));
        };
      }
    };
    tx.oncomplete = () => { open.result.close(); done(all); };
  }`);
