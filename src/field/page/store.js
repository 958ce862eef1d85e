// store.js - what is kept on this phone. An entry is kept when its own transaction is done, which
// is asked to reach the disk; nothing is deleted.
"use strict";

const Store = {
  open(name) {
    return new Promise((yes, no) => {
      const ask = indexedDB.open(name, 1);
      ask.onupgradeneeded = () => {
        ask.result.createObjectStore("line");
        ask.result.createObjectStore("about");
      };
      ask.onsuccess = () => { Store.db = ask.result; yes(); };
      ask.onerror = () => no(ask.error);
      ask.onblocked = () => no(new Error("blocked"));
    });
  },
  act(store, mode, fn) {
    return new Promise((yes, no) => {
      const deal = Store.db.transaction(store, mode, { durability: "strict" });
      const request = fn(deal.objectStore(store));
      deal.oncomplete = () => yes(request.result);
      deal.onerror = deal.onabort = () => no(deal.error || request.error || new Error("abort"));
    });
  },
  // add, not put: two windows that write the same number are told apart.
  keep(seq, text) { return Store.act("line", "readwrite", (s) => s.add(text, seq)); },
  lines() { return Store.act("line", "readonly", (s) => s.getAll()); },
  note(name, value) { return Store.act("about", "readwrite", (s) => s.put(value, name)); },
  noted(name) { return Store.act("about", "readonly", (s) => s.get(name)); },
};
