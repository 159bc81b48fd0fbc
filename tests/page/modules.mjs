// The page's libraries stand in build/page/node, not in src: `node --import ./tests/page/modules.mjs` finds them there.
import {register} from 'node:module';
import {pathToFileURL} from 'node:url';

const there = pathToFileURL(`${process.cwd()}/build/page/node/package.json`).href;
const code = `export const resolve = (name, context, next) =>
  next(name, /^[a-z@]/.test(name) && !name.includes(":") ? {...context, parentURL: ${JSON.stringify(there)}} : context);`;
register(`data:text/javascript,${encodeURIComponent(code)}`);
