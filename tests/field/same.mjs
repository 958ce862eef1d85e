// same.mjs WASM FOLDER: every NAME.entries of the folder put to the door in WebAssembly; each
// request of NAME.asked must have the very reply that the program gave.
// same.mjs WASM FOLDER falsify: one reply is changed before, which must be told.
import { readFileSync, readdirSync } from "node:fs";
import { open_door } from "./door.mjs";

const [wasm, folder, falsify] = process.argv.slice(2);
const names = readdirSync(folder).filter((f) => f.endsWith(".asked")).sort();
let asked = 0, different = 0, findings = 0, changed = false;
for (const name of names) {
  const door = open_door(wasm);
  const entries = readFileSync(`${folder}/${name.replace(/asked$/, "entries")}`);
  const lines = readFileSync(`${folder}/${name}`, "utf8").split("\n");
  for (let i = 0; i + 1 < lines.length; i += 2) {
    const reply = door.ask(lines[i], lines[i].includes('"do":"load"') ? entries : undefined);
    let wanted = lines[i + 1];
    if (falsify && !changed && wanted.includes('"answer":"no"')) {
      wanted = wanted.replace('"answer":"no"', '"answer":"yes"');
      changed = true;
    }
    asked++;
    findings += (reply.match(/"requirement"/g) || []).length;
    if (reply === wanted) continue;
    different++;
    if (different < 4) console.log(`${name}\n  ${lines[i]}\n  ${wanted}\n  ${reply}`);
  }
}
console.log(`${names.length} jobs, ${asked} replies, ${findings} findings, ${different} different`);
process.exit(names.length > 0 && asked > 0 && different === 0 ? 0 : 1);
