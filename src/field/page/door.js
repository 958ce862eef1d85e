// door.js - the judgment, compiled from the program's own sources: text in, text out.
"use strict";

const Door = { lang: "en", who: "" };

const two = (n) => String(n).padStart(2, "0");
// A moment as the phone's own wall clock has it.
const clock = (moment = Date.now()) => {
  const t = new Date(moment);
  return {
    today: `${t.getFullYear()}-${two(t.getMonth() + 1)}-${two(t.getDate())}`,
    time: `${two(t.getHours())}:${two(t.getMinutes())}`,
    at: t.toISOString().slice(0, 19) + "Z",
  };
};

const held = async (id) => {
  const text = document.getElementById(id).textContent.trim();
  const packed = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
  const flow = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Uint8Array(await new Response(flow).arrayBuffer());
};

Door.open = async () => {
  const none = () => 0;
  const wasi = { fd_close: none, fd_seek: none, fd_write: none };
  const made = await WebAssembly.instantiate(await held("wasm"), { wasi_snapshot_preview1: wasi });
  Door.c = made.instance.exports;
};

const put = (bytes) => {
  const at = Door.c.field_room(bytes.length + 1);
  const all = new Uint8Array(Door.c.memory.buffer);
  all.set(bytes, at);
  all[at + bytes.length] = 0;
  return at;
};

// The reply; what was refused has the member error. file: the bytes that came with it.
Door.ask = (what, more, bytes) => {
  const request = { do: what, lang: Door.lang, who: Door.who, ...clock(), ...more };
  const beside = bytes || new Uint8Array(0);
  const a = put(new TextEncoder().encode(JSON.stringify(request))), b = put(beside);
  const from = Door.c.field_ask(a, b, beside.length);
  const all = new Uint8Array(Door.c.memory.buffer);
  const reply = JSON.parse(new TextDecoder().decode(all.subarray(from, all.indexOf(0, from))));
  const file = Door.c.field_file();
  reply.file = all.slice(file, file + Door.c.field_file_len());
  Door.c.field_give(a);
  Door.c.field_give(b);
  return reply;
};

// Takes in the job and what was added here; the reply of the last request.
Door.load = async () => {
  const job = Door.ask("load", {}, await held("job"));
  if (job.error) return job;
  await Store.open(`mistfold ${job.job} ${job.made} ${job.from.slice(0, 16)}`);
  let device = await Store.noted("device");
  if (!device) {
    const drawn = crypto.getRandomValues(new Uint8Array(5));
    device = "f-" + Array.from(drawn, (n) => n.toString(16).padStart(2, "0")).join("");
    await Store.note("device", device);
  }
  const named = Door.ask("device", { device });
  if (named.error) return named;
  const lines = await Store.lines();
  const again = Door.ask("again", {}, new TextEncoder().encode(lines.join("")));
  const receipt = again.error ? null : await Store.noted("receipt");
  return receipt ? Door.ask("receipt", { text: receipt }) : again;
};

// Adds an entry: kept means on the disk. Where it could not be kept, it is not there either.
Door.keep = async (what, more, bytes) => {
  const reply = Door.ask(what, more, bytes);
  if (reply.error) return reply;
  try {
    await Store.keep(reply.seq, new TextDecoder().decode(reply.file) + reply.line);
  } catch (fault) {
    await Door.load();
    return { unkept: fault.name === "ConstraintError" ? "two" : "full" };
  }
  return reply;
};
