// axe-core over papers: node tests/page/axe.mjs FILE.html ...; a line for each fault, exit 1 when there is one. Each is
// looked at on a desk and, narrow, on a phone, where tables scroll.
// A paper forbids scripts of its own, so axe is brought in by the browser's driver, which may.
import { resolve } from "node:path";
import { axe, chromium, openBrowser } from "./driver.mjs";

const driver = await openBrowser("/tmp"), { size } = chromium(driver);
let faults = 0, passes = 0;

/* What a narrow page changes for axe: what scrolls. */
const SIZES = [[[1280, 800], {}], [[390, 844], { runOnly: ['scrollable-region-focusable'] }]];

async function look(file, [width, height], rules) {
  await size([width, height]);
  const found = await driver.executeAsyncScript(
    "const done = arguments[arguments.length - 1]; axe.run(document, arguments[0]).then((r) => done({violations: r.violations, passes: r.passes.length}), (e) => done({error: String(e)}));", { resultTypes: ['violations'], ...rules });
  if (found.error) throw new Error(file + ": " + found.error);
  passes += found.passes;
  for (const fault of found.violations)
    for (const node of fault.nodes) {
      faults++;
      console.log(`${file} (${width}): ${fault.id}: ${node.target}: ${fault.help}`);
    }
}

try {
  await driver.manage().setTimeouts({ script: 120000 });
  for (const file of process.argv.slice(2)) {
    await driver.get("file://" + resolve(file));
    await driver.executeScript(axe);
    for (const [at, rules] of SIZES) await look(file, at, rules);
  }
} finally {
  await driver.quit();
}
console.log(`axe: ${process.argv.length - 2} papers, ${passes} rules passed, ${faults} faults`);
process.exit(faults > 0 || passes === 0 ? 1 : 0);
