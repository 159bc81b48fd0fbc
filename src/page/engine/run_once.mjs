// One run of the program, of which nothing is left for the next: an instance of the compiled module whose memory is as
// it was made (warm.mjs).
//   open     the factory of build/page/engine/panewright.js
//   module   WebAssembly.Module
//   around   {before(FS, Module), after(FS), helper(name), progress(what, percent), stdin, once: no instance is kept}
// Gives {status, out, err}: exit status, standard output and error as bytes. What the program does not end by
// itself (a trap, a helper that must be fetched) is thrown.
import { drop, instanceOf, keep } from './warm.mjs';

const joined = (parts) => {
  const all = new Uint8Array(parts.reduce((n, p) => n + p.length, 0));
  let at = 0;
  for (const p of parts) {
    all.set(p, at);
    at += p.length;
  }
  return all;
};

export const runOnce = (open, module, argv, around = {}) => {
  const out = [];
  const err = [];
  let ended = null;
  const engine = open({
    arguments: [],
    thisProgram: 'panewright',
    noInitialRun: true,
    noFSInit: true,
    helper: around.helper,
    progress: around.progress,
    instantiateWasm(imports, done) {
      const instance = around.once ? new WebAssembly.Instance(module, imports) : instanceOf(module, imports);
      done(instance, module);
      return instance.exports;
    },
    quit(status, ending) {
      ended = status;
      throw ending;
    },
    onAbort(what) {
      throw new Error(`aborted: ${what}`);
    },
    printErr() {},
  });
  const { FS } = engine;
  FS.init(around.stdin ?? (() => null), () => {}, () => {});
  [out, err].forEach((parts, i) => {
    FS.getStream(i + 1).stream_ops = {
      write(stream, bytes, offset, length) {
        parts.push(bytes.slice(offset, offset + length));
        return length;
      },
    };
  });
  if (!around.once) keep(module, engine);
  let status;
  try {
    around.before?.(FS, engine);
    status = engine.callMain(argv);
    around.after?.(FS);
  } catch (fault) {
    drop(module);
    throw fault;
  }
  return { status: ended ?? status, out: joined(out), err: joined(err) };
};
