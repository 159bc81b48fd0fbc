// The page in WebKit, from its file: the way of a newcomer through every place.
//   node --import ./tests/page/modules.mjs --test tests/page/browser_webkit.mjs     (PAGE=build/page)
import assert from 'node:assert/strict';
import {mkdtempSync, rmSync} from 'node:fs';
import path from 'node:path';
import {test} from 'node:test';
import {pathToFileURL} from 'node:url';
import {hasWebKit, webkit} from './browser_page.mjs';

const page = path.resolve(process.env.PAGE ?? 'build/page');

test('WebKit: a job, its verdict, every place', {skip: !hasWebKit && 'no WebKit here'}, async () => {
  const dir = mkdtempSync('/tmp/panewright-webkit-');
  const {driver, close} = await webkit(dir, 8000 + Math.floor(Math.random() * 1000));
  const js = (script, ...more) => driver.executeScript(script, ...more);
  const until = (script, what) => driver.wait(() => js(script).catch(() => false), 60_000, what);
  const press = (text) => js('const b = [...document.querySelectorAll("button")].find((e) => e.textContent.trim().startsWith(arguments[0])); b.click()', text);
  const go = (n) => js('document.querySelectorAll("nav button")[arguments[0]].click()', n);
  try {
    await driver.get(pathToFileURL(`${page}/panewright.html`).href);
    await js('window.failed = []; addEventListener("error", (e) => failed.push(e.message)); addEventListener("unhandledrejection", (e) => failed.push(String(e.reason)))');
    await until('return document.querySelectorAll(".new button").length > 1', 'the start view');
    await press('The whole example');
    await until('return document.querySelectorAll(".strip .one").length === 11 && /48 1.8 x 47 5.8 in/.test(document.querySelector(".strip").textContent)', 'order sizes on the strip');
    await js('[...document.querySelectorAll(".one")].find((b) => b.textContent.startsWith("L2")).click()');
    await until('return /^Fits: order 48 1.8 x 47 5.8 in/.test(document.querySelector(".verdict").textContent)', 'the verdict');
    await js('const i = document.querySelector("input.reading"); i.value = "37 1/2"; i.dispatchEvent(new Event("input", {bubbles: true}))');
    await until('return /^Measure again/.test(document.querySelector(".verdict").textContent)', 'the other verdict');
    await press('↶');
    await go(2);
    await until('return document.querySelectorAll(".figures").length === 3 && /\\$8,784/.test(document.querySelector(".figures").textContent)', 'figures of packages');
    await go(3);
    await until('return /The question and the answer/.test(document.querySelector(".answer .taken")?.textContent)', 'the answer');
    await go(4);
    await until('return !document.querySelector(".paper").disabled', 'the measuring form');
    await js('document.querySelector(".paper").click()');
    await until('return /Measuring form/.test(document.querySelector("iframe").contentDocument?.body?.textContent)', 'the paper in its frame');
    await press('Show');
    await until('return /The glass is at 32 F now/.test(document.querySelector(".show h1")?.textContent)', 'a thought');
    assert.deepEqual(await js('return window.failed'), []);
  } finally {
    await driver.quit().catch(() => {});
    close();
    rmSync(dir, {recursive: true, force: true});
  }
});
