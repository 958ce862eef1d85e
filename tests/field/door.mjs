// The door of the field page as a browser has it: a request in, the reply and its file out.
import { readFileSync } from "node:fs";

const none = () => 0;

export function open_door(path) {
  const module = new WebAssembly.Module(readFileSync(path));
  const wasi = { fd_close: none, fd_seek: none, fd_write: none };
  const c = new WebAssembly.Instance(module, { wasi_snapshot_preview1: wasi }).exports;
  const text_at = (at) => {
    const all = new Uint8Array(c.memory.buffer);
    return Buffer.from(all.subarray(at, all.indexOf(0, at))).toString("utf8");
  };
  const put = (bytes) => {
    const at = c.field_room(bytes.length + 1);
    const all = new Uint8Array(c.memory.buffer);
    all.set(bytes, at);
    all[at + bytes.length] = 0;
    return at;
  };
  return {
    c,
    ask(request, bytes = new Uint8Array(0)) {
      const a = put(Buffer.from(request)), b = put(bytes);
      const reply = text_at(c.field_ask(a, b, bytes.length));
      c.field_give(a);
      c.field_give(b);
      return reply;
    },
  };
}
