// The papers as the browser prints them: the command's own pages, on letter and on A4.
import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import {existsSync, mkdirSync, rmSync, readdirSync, readFileSync, writeFileSync} from 'node:fs';
import path from 'node:path';
import {test} from 'node:test';
import {pathToFileURL} from 'node:url';
import {SIZES, memory} from './driver.mjs';

/* Every paper of the program, by its name in the page: what the command is asked beside --only. */
const PAPERS = {'Measuring form': ['measure'], 'Customer’s sheet': ['customer', '--no-range'], Offer: ['offer', '--no-range'], 'Order to the maker': ['order', 'pack'], 'Change order': ['change', 'pack', 'before'],
  'Crew’s day': ['crew', 'pack'], Materials: ['materials', 'pack'], 'Hand-over': ['handover', 'pack', '--no-range'], 'Rebate worksheet': ['worksheet', 'pack', 'program']};
const SHEETS = {letter: [612, 792], a4: [595.3, 841.9]}; /* points: 8.5 x 11 in, 210 x 297 mm (ISO 216) */
const PROGRAM = 'examples/programs/juniper_flat_power_2026.csv';

export function papers(at) {
  const here = {}; /* name of the job, desk: the tab in which is printed */
  /* What stands in the frame, as a page of its own in another tab; there the browser prints it. */
  const printed = async (html, name) => {
    writeFileSync(`${at.temp}/${name}.html`, html);
    const back = await at.driver.getWindowHandle();
    if (!here.desk) {
      await at.driver.switchTo().newWindow('tab');
      here.desk = await at.driver.getWindowHandle();
    }
    await at.driver.switchTo().window(here.desk);
    await at.driver.get(pathToFileURL(`${at.temp}/${name}.html`).href);
    const {data} = await at.driver.sendAndGetDevToolsCommand('Page.printToPDF', {preferCSSPageSize: true, printBackground: true});
    await at.driver.switchTo().window(back);
    writeFileSync(`${at.temp}/${name}.pdf`, Buffer.from(data, 'base64'));
    const info = String(execFileSync('pdfinfo', ['-l', '99', `${at.temp}/${name}.pdf`]));
    return {sizes: [...info.matchAll(/size: +([\d.]+) x ([\d.]+)/g)].map(([, w, h]) => [Number(w), Number(h)]), text: String(execFileSync('pdftotext', ['-raw', `${at.temp}/${name}.pdf`, '-']))};
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

  /* The command's paper of the job as the browser keeps it: its page, its lists. */
  const ofCommand = async (only, ...more) => {
    const to = `${at.temp}/papers`, job = `${at.temp}/native`, pack = await at.value('#paper-package');
    const words = {pack: ['--package', pack], before: ['--before', `${job}/order_sent.csv`], program: ['--program', `${job}/program.csv`]};
    rmSync(to, {recursive: true, force: true});
    await at.native(here.name, ['papers', '-o', to, '--only', only, '--html-only', '--language', 'en', ...more.flatMap((w) => words[w] ?? [w])], ['promise.csv']); /* which it writes itself */
    const files = readdirSync(to, {recursive: true}).map(String);
    return {html: readFileSync(`${to}/${files.find((f) => f.endsWith('.html'))}`, 'utf8').replaceAll(job, '/job'), promise: existsSync(`${job}/promise.csv`) && readFileSync(`${job}/promise.csv`), csv: files.filter((f) => f.endsWith('.csv')).map((f) => [path.basename(f), readFileSync(`${to}/${f}`)])};
  };
  const inFrame = async (name) => {
    await at.until('return document.querySelector(".desk iframe")?.title === arguments[0] && document.querySelector(".desk iframe").contentDocument?.body?.textContent.trim()', name, name);
    return (await at.js('return document.querySelector(".desk iframe").srcdoc')).replace(/<style>@page\{size:(A4|letter)\}<\/style>(?=<\/head>)/, '');
  };
  const allThere = () => at.until('return document.querySelectorAll(".paper:not(:disabled)").length === arguments[0] && ![...document.querySelectorAll(".paper")].some((p) => /at work/.test(p.textContent))', 'the papers', Object.keys(PAPERS).length);

  test('papers: what each still lacks is given, and every paper of the program is there', async () => {
    await at.size(SIZES[2]);
    here.name = await at.made('The whole example');
    await at.go(4);
    await at.press('Order to the maker');
    await inFrame('Order to the maker');
    await at.press('Keep as the order that was sent');
    await at.until('return [...document.querySelectorAll("button.paper")].some((b) => b.textContent.startsWith("Change order"))', 'the change order');
    assert.deepEqual((await at.files(here.name)).get('order_sent.csv'), (await ofCommand('order', 'pack')).csv.find(([f]) => f === 'order.csv')[1]);
    await (await at.driver.findElements({css: '.shelf input[accept^=".csv"]'})).at(-1).sendKeys(path.resolve(PROGRAM));
    await at.go(0);
    await at.openOne('L1');
    await at.retype('css:input.reading[aria-label="width at the top"]', '47 5/8'); /* so that something has changed since */
    await at.go(4);
    await allThere();
  });

  test('papers: each is the page of the command, and printed whole on letter and A4', async (t) => {
    for (const [paper, points] of Object.entries(SHEETS)) {
      await at.js('const s = document.querySelector("#paper-page"); s.value = arguments[0]; s.dispatchEvent(new Event("change", {bubbles: true}))', paper);
      await allThere();
      for (const [name, [only, ...more]] of Object.entries(PAPERS)) {
        await at.press(name);
        const html = await inFrame(name);
        assert.equal(html, (await ofCommand(only, ...more, '--paper', paper)).html, `${name} is the command's page`);
        const {sizes, text} = await printed(html.replace('</head>', `<style>@page{size:${paper === 'a4' ? 'A4' : 'letter'}}</style></head>`), `${only}-${paper}`);
        assert.ok(sizes.length > 0);
        for (const [w, h] of sizes) assert.ok(Math.abs(w - points[0]) < 1 && Math.abs(h - points[1]) < 1, `${name} on ${paper}: ${w} x ${h}`);
        const words = await at.js('return document.querySelector(".desk iframe").contentDocument.body.innerText');
        assert.deepEqual(lacking(words, text), [], `${name} on ${paper}`);
        t.diagnostic(`${name} on ${paper}: ${sizes.length} pages, ${words.length} letters`);
      }
    }
    const back = await at.driver.getWindowHandle();
    await at.driver.switchTo().window(here.desk);
    await at.driver.close();
    await at.driver.switchTo().window(back);
  });

  test('papers: with ranges the customer’s sheet is the command’s, the page answers meanwhile, and what is promised is kept in the job', async (t) => {
    await at.press('Customer’s sheet');
    await inFrame('Customer’s sheet');
    await at.js('window.gap = 0; let last = performance.now(); window.beat = setInterval(() => { const now = performance.now(); window.gap = Math.max(window.gap, now - last); last = now; }, 10)');
    const began = Date.now();
    await at.press('Compute the range');
    await at.shows('.desk .sure', /With ranges of 8 in 10/, 120_000);
    t.diagnostic(`${((Date.now() - began) / 1000).toFixed(1)} s; the longest that the page did not answer ${Math.round(await at.js('clearInterval(window.beat); return window.gap'))} ms`);
    assert.ok(await at.js('return window.gap < 1000'), 'it answers meanwhile');
    const used = await memory(at.driver);
    t.diagnostic(`${Math.round(used)} MB of memory`);
    assert.ok(used > 30 && used <= 300, 'memory');
    const html = await inFrame('Customer’s sheet'), kept = (await at.files(here.name)).get('promise.csv');
    assert.ok(kept, 'promise.csv is kept');
    const want = await ofCommand('customer', '--paper', 'a4');
    assert.equal(html, want.html);
    assert.equal(String(kept), String(want.promise));
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
    const text = String(execFileSync('pdftotext', ['-raw', `${at.temp}/answer/a.pdf`, '-']));
    assert.deepEqual(lacking(await at.js('return document.querySelector(".answer .taken").innerText'), text), []);
    assert.doesNotMatch(text, /Papers\s+Show|Undo/);
  });
}
