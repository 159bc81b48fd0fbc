// The page in Chromium, from its file and from its site, as the issue asks: one browser for all.
//   node --test tests/page/browser.mjs     (PAGE=build/page, PANEWRIGHT=build/panewright; PARTS='views papers': those alone)
import assert from 'node:assert/strict';
import {mkdtempSync, rmSync} from 'node:fs';
import path from 'node:path';
import {after, before, test} from 'node:test';
import {pathToFileURL} from 'node:url';
import {folders} from './browser_folders.mjs';
import {keyboard} from './browser_keys.mjs';
import {newcomer} from './browser_newcomer.mjs';
import {papers} from './browser_papers.mjs';
import {site} from './browser_site.mjs';
import {trouble} from './browser_trouble.mjs';
import {views} from './browser_views.mjs';
import {chromium, errors, openBrowser, requests} from './driver.mjs';
import {Hands} from './hands.mjs';

const page = path.resolve(process.env.PAGE ?? 'build/page'), temp = mkdtempSync('/tmp/panewright-browser-');
const at = new Hands(null, {address: pathToFileURL(`${page}/panewright.html`).href, temp, program: process.env.PANEWRIGHT ?? 'build/panewright'});

before(async () => {
  at.driver = await openBrowser(temp);
  at.browser = chromium(at.driver);
});
after(async () => {
  await at.driver?.quit();
  rmSync(temp, {recursive: true, force: true});
});

const wanted = process.env.PARTS?.split(' ');
const parts = (all) => Object.entries(all).filter(([name]) => !wanted || wanted.includes(name)).map(([, part]) => part(at, page)).length;
if (parts({newcomer, keyboard, views, folders, papers})) {
  test('no request has left, and the page has logged no error', async () => {
    assert.deepEqual(await requests(at.driver), []);
    assert.deepEqual(await errors(at.driver), []);
  });
}
parts({trouble, site});
