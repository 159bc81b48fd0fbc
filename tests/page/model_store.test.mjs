// Jobs kept in real browsers: Chromium from a site and from a file, WebKit when it is there.
import assert from 'node:assert/strict';
import {mkdirSync} from 'node:fs';
import {test} from 'node:test';

import {chromium, hasWebKit, htmlOf, kill, served, webkit} from './browser_page.mjs';
import {folder} from './program.mjs';

/* Runs an async function in the page with the model and what it is given. */
const inPage = (driver, f, ...args) => driver.executeAsyncScript(`
  const done = arguments[arguments.length - 1], given = [...arguments].slice(0, -1);
  (${f})(window.model, ...given).then((value) => done({value}), (why) => done({why: String(why.message)}));`, ...args)
  .then(({value, why}) => {
    if (why !== undefined) throw new Error(why);
    return value;
  });

/* What the tests call in the page: a job of one opening, its room, and a store opened once. */
const HELP = `
  window.bytes = (s) => new TextEncoder().encode(s);
  window.small = (name) => model.job.newJob(name, [['openings.csv', bytes('tag,room\\n1,\\n')], ['big.epw', new Uint8Array(100000)]]);
  window.typed = (job, room) => model.job.setCell(job, 'openings.csv', 0, 'room', room);
  window.room = (job) => model.job.openings(job).cell(0, 'room');
  window.store = () => (window.opened ??= model.store.openStore());`;

test('typing, then the browser is killed: what was typed is there', async (t) => {
  const dir = folder(t), profile = `${dir}/profile`, page = await served(htmlOf(dir, HELP));
  t.after(() => page.close());
  let driver = await chromium(profile);
  await driver.get(page.url);
  const id = await inPage(driver, async () => {
    const s = await store();
    if (!s.kept) throw new Error(s.why);
    let job = small('elm');
    await s.save(job);
    window.shown = '';
    (async () => {
      for (let i = 0; ; i++) {
        job = typed(job, 'room ' + i);
        await s.save(job);
        window.shown = room(job);
      }
    })();
    return job.id;
  });
  await new Promise((done) => setTimeout(done, 1500));
  const shown = await driver.executeScript('return shown');
  kill(profile);
  await driver.quit().catch(() => {});
  driver = await chromium(profile);
  t.after(() => driver.quit());
  await driver.get(page.url);
  const [now, names] = await inPage(driver, async (_, at) => {
    const job = await (await store()).load(at);
    return [room(job), [...job.files.keys()]];
  }, id);
  assert.match(shown, /^room \d+$/);
  assert.ok(Number(now.slice(5)) >= Number(shown.slice(5)), `${now} after ${shown}`);
  assert.deepEqual(names, ['openings.csv', 'big.epw']);

  await t.test('a burst of keys: the last one is kept, and every save has ended', async () => {
    const [room_, n] = await inPage(driver, async () => {
      const s = await store(), saves = [];
      let job = small('burst');
      for (let i = 0; i < 300; i++) saves.push(s.save((job = typed(job, 'k' + i))));
      await Promise.all(saves);
      return [room(await s.load(job.id)), (await s.list()).length];
    });
    assert.deepEqual([room_, n], ['k299', 2]);
  });

  await t.test('a copy is another job; delete can be taken back for an hour, then it is forgotten', async () => {
    const said = await inPage(driver, async (model) => {
      let clock = 1e12;
      const s = await model.store.openStore({name: 'other', now: () => clock});
      const job = typed(small('a'), 'Den'), copy = model.job.copyOf(job, 'b');
      await s.save(job);
      await s.save(copy);
      await s.save(typed(copy, 'Attic'));
      const names = async (o) => (await s.list(o)).map((row) => row.name).sort().join();
      const out = [await names(), room(await s.load(job.id)), room(await s.load(copy.id))];
      await s.remove(job.id);
      out.push(await names(), await names({removed: true}), await s.load(job.id));
      await s.restore(job.id);
      out.push(await names(), room(await s.load(job.id)));
      await s.remove(job.id);
      clock += 59 * 60e3;
      out.push((await (await model.store.openStore({name: 'other', now: () => clock})).list({removed: true})).length);
      clock += 2 * 60e3;
      out.push((await (await model.store.openStore({name: 'other', now: () => clock})).list({removed: true})).length);
      const db = await new Promise((done) => { const r = indexedDB.open('other'); r.onsuccess = () => done(r.result); });
      const keys = await new Promise((done) => { const r = db.transaction('files').objectStore('files').getAllKeys(); r.onsuccess = () => done(r.result); });
      out.push(keys.every(([of]) => of === copy.id) && keys.length);
      return out;
    });
    assert.deepEqual(said, ['a,b', 'Den', 'Attic', 'b', 'a', null, 'a,b', 'Den', 1, 0, 2]);
  });

  await t.test('two tabs: the second may read and says why, cannot save over the first, and follows it', async () => {
    const first = await driver.getWindowHandle();
    const job = await inPage(driver, async () => {
      const s = await store(), made = small('two');
      await s.save(made);
      window.mine = await s.claim(made.id);
      window.job = made;
      return [made.id, mine.writer, mine.why];
    });
    assert.deepEqual(job.slice(1), [true, '']);
    await driver.switchTo().newWindow('tab');
    const second = await driver.getWindowHandle();
    await driver.get(page.url);
    const [writer, why] = await inPage(driver, async (_, at) => {
      const s = await store();
      window.job = await s.load(at);
      window.mine = await s.claim(at);
      window.freed = false;
      mine.free.then(() => { window.freed = true; });
      return [mine.writer, mine.why];
    }, job[0]);
    assert.equal(writer, false);
    assert.match(why, /^open in another tab, so it can only be read here/);
    await driver.switchTo().window(first);
    await inPage(driver, async () => (await store()).save(typed(job, 'first')));
    await driver.switchTo().window(second);
    await assert.rejects(inPage(driver, async () => (await store()).save(typed(job, 'second'))), /another tab has changed this job/);
    assert.equal(await driver.executeScript('return freed'), false);
    await driver.switchTo().window(first);
    await driver.close();
    await driver.switchTo().window(second);
    const now = await inPage(driver, async (_, at) => {
      await mine.free;
      const s = await store(), mineNow = await s.load(at);
      await s.save(typed(mineNow, room(mineNow) + ' then second'));
      return room(await s.load(at));
    }, job[0]);
    assert.equal(now, 'first then second');
  });

  await t.test('storage full: the edit in hand is kept from a reserve and one is told; then nothing more is taken, nothing is lost', async () => {
    const small_ = await served(`${dir}/page.html`); /* an origin of its own: the browser remembers for a while how much room there was */
    t.after(() => small_.close());
    await driver.sendAndGetDevToolsCommand('Storage.overrideQuotaForOrigin', {origin: small_.url, quotaSize: 6 << 20});
    await driver.get(small_.url);
    const said = await inPage(driver, async (model) => {
      const s = await store(), out = [];
      const random = (n) => {
        const b = new Uint8Array(n);
        for (let at = 0; at < n; at += 65536) crypto.getRandomValues(b.subarray(at, at + 65536));
        return b;
      };
      let job = typed(small('full'), 'kept'), n = 0;
      out.push(await s.save(job), (await s.room()).low);
      for (let line = ''; line === '' && n < 40; n++) {
        job = model.job.withFile(typed(job, 'room ' + n), n + '.epw', random(300000));
        line = await s.save(job);
        if (line) out.push(line, (await s.room()).line === line);
      }
      out.push(room(await s.load(job.id)) === room(job) && n > 4 && n < 20);
      for (let k = 0; k < 40; k++) {
        const more = model.job.withFile(typed(job, 'more ' + k), 'm' + k, random(300000));
        try {
          await s.save(more);
          job = more;
        } catch (why) {
          out.push(why.message);
          break;
        }
      }
      const there = await s.load(job.id);
      out.push(room(there) === room(job), there.files.size === job.files.size);
      return out;
    });
    const [first, low, line, told, kept, refused, old, files] = said;
    assert.deepEqual([first, low, told, kept, old, files], ['', false, true, true, true, true], JSON.stringify(said));
    assert.match(line, /^storage is full but for a reserve, which was used: save to a file, or delete a job$/);
    assert.match(refused, /^storage is full: the last edits are in this tab alone; save to a file/);
    await driver.get(small_.url);
    assert.deepEqual(await inPage(driver, async () => {
      const s = await store();
      return [s.kept, (await s.list()).length, (await s.room()).low];
    }), [true, 1, true]);
  });

  await t.test('opened as a file: kept over a reload', async () => {
    const path = `file://${dir}/page.html`;
    await driver.get(path);
    const at = await inPage(driver, async () => {
      const s = await store(), job = typed(small('file'), 'Hall');
      await s.save(job);
      const claim = await s.claim(job.id);
      return [job.id, s.kept, claim.writer];
    });
    assert.deepEqual(at.slice(1), [true, true]);
    await driver.get(path);
    assert.equal(await inPage(driver, async (_, id_) => room(await (await store()).load(id_)), at[0]), 'Hall');
  });

  await t.test('a browser without storage says so and works on', async () => {
    mkdirSync(`${dir}/none`);
    const path = htmlOf(`${dir}/none`, `Object.defineProperty(window, 'indexedDB', {value: undefined});${HELP}`);
    await driver.get(`file://${path}`);
    const said = await inPage(driver, async () => {
      const s = await store(), job = small('x');
      await s.save(job);
      await s.save(typed(job, 'Den'));
      await s.remove(job.id);
      await s.restore(job.id);
      return [s.kept, s.why, room(await s.load(job.id)), (await s.list()).length, (await s.claim(job.id)).writer];
    });
    assert.deepEqual(said, [false, 'this browser forgets; save to a file', 'Den', 1, true]);
  });
});

test('WebKit: kept over a reload, from a site and from a file', {skip: !hasWebKit && 'no WebKit driver here'}, async (t) => {
  const dir = folder(t), path = htmlOf(dir, HELP), page = await served(path);
  t.after(() => page.close());
  const {driver, close} = await webkit(dir, 4700 + (process.pid % 200));
  t.after(async () => {
    await driver.quit().catch(() => {});
    close();
  });
  for (const url of [page.url, `file://${path}`]) {
    await driver.get(url);
    const [id, kept, writer] = await inPage(driver, async () => {
      const s = await store(), job = typed(small('webkit'), 'Hall');
      await s.save(job);
      return [job.id, s.kept, (await s.claim(job.id)).writer];
    });
    assert.deepEqual([kept, writer], [true, true], url);
    await driver.get(url);
    assert.equal(await inPage(driver, async (_, at) => room(await (await store()).load(at)), id), 'Hall', url);
  }
});
