// A plain web host of this machine for build/page/site: files as they are, by their ends; every request is noted.
import {existsSync, readFileSync, statSync} from 'node:fs';
import {createServer} from 'node:http';
import {once} from 'node:events';
import path from 'node:path';

const TYPES = {'.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.svg': 'image/svg+xml', '.webmanifest': 'application/manifest+json', '.gz': 'application/octet-stream'};
const HERE = ['http:', '', '127.0.0.1'].join('/');

/* {url, asked, close, open}: asked are the paths; closed, every request fails, as without a network. */
export async function webHost(folder) {
  const asked = [];
  let server;
  const open = async (port) => {
    server = createServer((request, answer) => {
      const name = decodeURIComponent(request.url.split('?')[0]);
      asked.push(name);
      const file = path.join(folder, name.endsWith('/') ? `${name}index.html` : name);
      if (!file.startsWith(folder) || !existsSync(file) || !statSync(file).isFile()) return answer.writeHead(404).end();
      answer.setHeader('content-type', TYPES[path.extname(file)] ?? 'application/octet-stream').end(readFileSync(file));
    });
    server.listen(port, '127.0.0.1');
    await once(server, 'listening');
    return server.address().port;
  };
  const close = async () => {
    const ended = once(server, 'close');
    server.close();
    server.closeAllConnections();
    await ended;
  };
  const port = await open(0);
  return {url: `${HERE}:${port}/`, asked, close, open: () => open(port)};
}
