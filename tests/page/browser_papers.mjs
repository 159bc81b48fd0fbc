// The papers as the browser prints them: the command's own pages, on letter and on A4.
import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import {mkdirSync, rmSync, readdirSync, readFileSync, writeFileSync} from 'node:fs';
import {test} from 'node:test';
import {pathToFileURL} from 'node:url';
import {SIZES} from './driver.mjs';

const PAPERS = {'Measuring form': 'measure', 'Customer’s sheet': 'customer', 'Order to the maker': 'order', 'Crew’s day': 'crew'};
const SHEETS = {letter: [612, 792], a4: [595.3, 841.9]}; /* points: 8.5 x 11 in, 210 x 297 mm (ISO 216) */
const EXAMPLE = 'examples/harrow_bend';

export function papers(at) {
  /* What stands in the frame, as a page of its own in another tab; there the browser prints it. */
  const printed = async (html, name) => {
    writeFileSync(`${at.temp}/${name}.html`, html);
    const back = await at.driver.getWindowHandle();
    await at.driver.switchTo().newWindow('tab');
    await at.driver.get(pathToFileURL(`${at.temp}/${name}.html`).href);
    const {data} = await at.driver.sendAndGetDevToolsCommand('Page.printToPDF', {preferCSSPageSize: true, printBackground: true});
    await at.driver.close();
    await at.driver.switchTo().window(back);
    writeFileSync(`${at.temp}/${name}.pdf`, Buffer.from(data, 'base64'));
    const info = String(execFileSync('pdfinfo', ['-l', '99', `${at.temp}/${name}.pdf`]));
    return {sizes: [...info.matchAll(/size: +([\d.]+) x ([\d.]+)/g)].map(([, w, h]) => [Number(w), Number(h)]), text: String(execFileSync('pdftotext', ['-layout', `${at.temp}/${name}.pdf`, '-']))};
  };
  /* Words of html that text lacks, as often as each stands there; where a line ends no word is told apart. */
  const lacking = (html, text) => {
    const words = (of) => of.normalize('NFKC').match(/[\p{L}\p{N}]+/gu) ?? [], there = new Map();
    for (const w of words(text)) there.set(w, (there.get(w) ?? 0) + 1);
    return words(html).filter((w) => {
      const n = there.get(w) ?? 0;
      there.set(w, n - 1);
      return n <= 0;
    });
  };

  test('papers: the page of the command, and printed whole on letter and A4', async (t) => {
    await at.size(SIZES[2]);
    await at.made('The whole example');
    await at.go(4);
    for (const [paper, points] of Object.entries(SHEETS)) {
      await at.js('const s = document.querySelector("#paper-page"); s.value = arguments[0]; s.dispatchEvent(new Event("change", {bubbles: true}))', paper);
      await at.until('return document.querySelectorAll(".paper:not(:disabled)").length >= 6 && ![...document.querySelectorAll(".paper")].some((p) => /at work/.test(p.textContent))', 'the papers');
      for (const [name, only] of Object.entries(PAPERS)) {
        await at.press(name);
        await at.until('return document.querySelector(".desk iframe")?.title === arguments[0] && document.querySelector(".desk iframe").contentDocument.body.textContent.trim()', name, name);
        const html = await at.js('return document.querySelector(".desk iframe").srcdoc');
        rmSync(`${at.temp}/papers`, {recursive: true, force: true});
        const pack = await at.value('#paper-package');
        at.command(['papers', EXAMPLE, '-o', `${at.temp}/papers`, '--only', only, '--html-only', '--paper', paper, '--language', 'en', ...(['measure', 'customer'].includes(only) ? [] : ['--package', pack]), ...(only === 'customer' ? ['--no-range'] : [])]);
        const [file] = readdirSync(`${at.temp}/papers`, {recursive: true}).filter((f) => String(f).endsWith('.html'));
        const want = readFileSync(`${at.temp}/papers/${file}`, 'utf8').replaceAll(EXAMPLE, '/job');
        assert.equal(html.replace(/<style>@page\{size:(A4|letter)\}<\/style>(?=<\/head>)/, ''), want, `${name} is the command's page`);
        const {sizes, text} = await printed(html, `${only}-${paper}`);
        assert.ok(sizes.length > 0);
        for (const [w, h] of sizes) assert.ok(Math.abs(w - points[0]) < 1 && Math.abs(h - points[1]) < 1, `${name} on ${paper}: ${w} x ${h}`);
        const words = await at.js('return document.querySelector(".desk iframe").contentDocument.body.innerText');
        assert.deepEqual(lacking(words, text), [], `${name} on ${paper}`);
        t.diagnostic(`${name} on ${paper}: ${sizes.length} pages, ${words.length} letters`);
      }
    }
  });

  test('the button prints the paper in its frame', async () => {
    await at.js('const w = document.querySelector(".desk iframe").contentWindow; w.print = () => { window.printed = w.document.title || w.document.body.textContent.slice(0, 80); }');
    await at.press('css:.desk button.strong');
    assert.match(await at.js('return window.printed ?? ""'), /\S/);
  });

  test('the browser prints the answer itself without the page around it', async () => {
    await at.go(3);
    await at.shows('.answer .taken', /The question and the answer/);
    const {data} = await at.driver.sendAndGetDevToolsCommand('Page.printToPDF', {preferCSSPageSize: true});
    mkdirSync(`${at.temp}/answer`, {recursive: true});
    writeFileSync(`${at.temp}/answer/a.pdf`, Buffer.from(data, 'base64'));
    const text = String(execFileSync('pdftotext', ['-layout', `${at.temp}/answer/a.pdf`, '-']));
    assert.deepEqual(lacking(await at.js('return document.querySelector(".answer .taken").innerText'), text), []);
    assert.doesNotMatch(text, /Papers\s+Show|Undo/);
  });
}
