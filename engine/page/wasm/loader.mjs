// Starts the engine and speaks to it: objects in, objects out. The module asks its host for no more than what
// stands here, and none of it reaches files, a clock or the network.

export async function makeEngine(bytes) {
  let memory;
  // What it would write to a terminal, were something to go badly wrong, is dropped.
  const write = (descriptor, vectors, count, written) => {
    const view = new DataView(memory.buffer);
    let bytesWritten = 0;
    for (let i = 0; i < count; i++) bytesWritten += view.getUint32(vectors + 8 * i + 4, true);
    view.setUint32(written, bytesWritten, true);
    return 0;
  };
  const nothing = (first, second) => {
    const view = new DataView(memory.buffer);
    view.setUint32(first, 0, true);
    view.setUint32(second, 0, true);
    return 0;
  };
  const badDescriptor = () => 8;
  const { instance } = await WebAssembly.instantiate(bytes, {
    env: { emscripten_notify_memory_growth: () => {} },
    wasi_snapshot_preview1: {
      proc_exit: (code) => {
        throw new Error(`The engine stopped (${code}).`);
      },
      fd_write: write,
      fd_read: badDescriptor,
      fd_seek: badDescriptor,
      fd_close: badDescriptor,
      environ_sizes_get: nothing,
      environ_get: () => 0,
    },
  });
  const engine = instance.exports;
  memory = engine.memory;
  engine._initialize();

  const encoder = new TextEncoder();
  const decoder = new TextDecoder();
  const call = (door, question) => {
    const text = encoder.encode(JSON.stringify(question));
    const asked = engine.jarful_room(text.length + 1);
    if (asked === 0) throw new Error("There is not enough memory.");
    // Memory may have grown, so the view of it is made anew each time.
    const place = new Uint8Array(memory.buffer, asked, text.length + 1);
    place.set(text);
    place[text.length] = 0;
    let said = 0;
    try {
      said = door(asked);
    } finally {
      engine.jarful_free(asked);
    }
    if (said === 0) throw new Error("There is not enough memory.");
    const bytesNow = new Uint8Array(memory.buffer);
    const answer = decoder.decode(bytesNow.subarray(said, bytesNow.indexOf(0, said)));
    engine.jarful_free(said);
    return answer;
  };
  return {
    load: (question) => JSON.parse(call(engine.jarful_load, question)),
    answer: (question) => JSON.parse(call(engine.jarful_answer, question)),
    // The very text, for those who compare it with another's.
    loadText: (question) => call(engine.jarful_load, question),
    answerText: (question) => call(engine.jarful_answer, question),
  };
}
