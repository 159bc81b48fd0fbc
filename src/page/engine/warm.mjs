// An instance of a module used again: to make one takes 25 ms, to put its memory back as it was made 3 ms. Its memory is
// the whole of its state but for the stack's pointer: what the linker laid down, then zeros up to where the heap ends.
// The functions that it calls are looked up at each call, since each run brings its own.
const warm = new WeakMap(); // WebAssembly.Module -> {instance, imports, image, memory, glue, stack}
const MOST = 96 * 2 ** 20; // a larger memory is given back

const called = (spot, space, name) => (...args) => spot.imports[space][name](...args);

const madeOf = (module, imports) => {
  const spot = { imports };
  const through = {};
  for (const [space, all] of Object.entries(imports)) {
    through[space] = {};
    for (const [name, one] of Object.entries(all)) through[space][name] = typeof one === 'function' ? called(spot, space, name) : one;
  }
  spot.instance = new WebAssembly.Instance(module, through);
  spot.memory = Object.values(spot.instance.exports).find((one) => one instanceof WebAssembly.Memory);
  const words = new Int32Array(spot.memory.buffer);
  let end = words.length;
  while (end > 0 && words[end - 1] === 0) end -= 1;
  spot.image = words.slice(0, end);
  return spot;
};

/* The instance, its memory as it was made; imports: what it calls from now on. */
export const instanceOf = (module, imports) => {
  let spot = warm.get(module);
  if (spot?.glue && spot.memory.buffer.byteLength <= MOST) {
    const end = spot.glue._sbrk(0) >>> 0;
    spot.glue.stackRestore(spot.stack);
    const words = new Int32Array(spot.memory.buffer);
    words.set(spot.image);
    words.fill(0, spot.image.length, (end + 3) >> 2);
    spot.imports = imports;
    spot.glue = null;
  } else {
    spot = madeOf(module, imports);
    warm.set(module, spot);
  }
  return spot.instance;
};

/* After the instance was given to emscripten's part in JavaScript: what is needed to put it back after the run. */
export const keep = (module, glue) => {
  const spot = warm.get(module);
  if (!glue._sbrk || !glue.stackRestore) return;
  spot.glue = glue;
  spot.stack = glue.stackSave();
};

export const drop = (module) => warm.delete(module);
