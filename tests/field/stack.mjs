// stack.mjs WASM: more stack than there is ends in a trap, and what was loaded is as it was. If
// the stack lay behind the data, it would grow over the numbers of the rule without a word.
import { open_door } from "./door.mjs";

const door = open_door(process.argv[2]);
const words = '{"do":"words","prefix":"field.","lang":"es","today":"2026-09-14","time":"08:00"}';
const before = door.ask(words);
if (door.c.field_deep(900) !== 900) throw new Error("900 KB of stack are not there");
let trapped = false;
try {
  door.c.field_deep(1100);
} catch (fault) {
  trapped = fault instanceof WebAssembly.RuntimeError;
}
if (!trapped) throw new Error("1100 KB of stack did not end in a trap");
console.log(trapped && before.length > 100 ? "trapped" : "not trapped");
