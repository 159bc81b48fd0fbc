// The large parts of the page, gzipped: as text in a block of the one file, or a file beside the site's page.
import { fromText } from './base85.js';

// A stream of the bytes themselves: some browsers refuse to read a Blob of a page from a file.
const unpacked = async (gzipped) => {
  const source = new ReadableStream({
    start(control) {
      control.enqueue(gzipped);
      control.close();
    },
  });
  return new Uint8Array(await new Response(source.pipeThrough(new DecompressionStream('gzip'))).arrayBuffer());
};

const packed = async (name) => {
  const block = document.getElementById(`part ${name}`);
  if (block) {
    const bytes = fromText(block.textContent.trim());
    block.remove();
    return bytes;
  }
  const answer = await fetch(`parts/${name}.gz`);
  if (!answer.ok) throw new Error(`${name}: ${answer.status}`);
  return new Uint8Array(await answer.arrayBuffer());
};

// Each part can be had once: the caller keeps what is made of it.
export const part = async (name) => unpacked(await packed(name));
