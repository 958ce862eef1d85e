// sheets.js - the sheets of the page: who, contents, lists, questions, cloths, forms, sending.
"use strict";

const made = JSON.parse(document.getElementById("made").textContent);
const here = { area: "", renovator: "", job: null, timer: 0, alone: true };

const go = (fn, ...with_) => { clearInterval(here.timer); fn(...with_); };
const back = () => el("div", { class: "top" }, act(w("back"), () => go(contents)), tongue());
const tongue = () => act(w("other-language"), async () => {
  Door.lang = Door.lang === "es" ? "en" : "es";
  read_words();
  await Store.note("lang", Door.lang);
  go(here.now || contents);
});
// Remembers what is drawn, so that the other language draws it again.
const draws = (fn, ...with_) => { here.now = () => fn(...with_); };

// Adds something and says what came of it; null = it was refused, and why stands on the sheet.
const add = async (what, more, bytes, where) => {
  const reply = await Door.keep(what, more, bytes);
  if (reply.error || reply.unkept) {
    const text = reply.error ? reply.error.text : w("unkept." + reply.unkept);
    say("");
    if (where) where.replaceChildren(note(text, true));
    else say(text);
    return null;
  }
  say(`${w("kept")} ${reply.entry}`);
  return reply;
};

// ---- the banner ---------------------------------------------------------------------------

const local = (moment) => { const t = clock(moment); return `${t.today} ${t.time}`; };
const banner = () => {
  const j = (here.job = Door.ask("job"));
  const facts = [["made", j.made], ["from", j.from.slice(0, 16)], ["entries", j.entries],
    ["added", j.added], ["unsent", j.unsent], ["device", j.device]];
  return [
    el("p", { class: "small" }, `${j.job} · ${j.address}`),
    j.unsent > 0 && el("p", { class: "note", id: "unsent" }, `${w("unsent-note")} ${j.unsent}`),
    j.cut && note(w("cut"), true),
    el("details", { id: "banner" }, el("summary", {}, w("snapshot")),
      el("dl", {}, facts.map(([k, v]) => [el("dt", {}, w("banner." + k)), el("dd", { id: "b-" + k }, k === "made" ? local(v) : String(v))]))),
  ];
};
const remind = () => here.job.unsent > 0 &&
  el("div", { class: "note" }, el("p", {}, `${w("remind")} ${here.job.unsent}`), act(w("send"), () => go(send)));

// ---- who, and the contents ------------------------------------------------------------------

function who() {
  draws(who);
  const j = here.job || (here.job = Door.ask("job"));
  const people = j.people.map((p) => ({ word: p.id, says: p.renovator ? `${p.name} (${w("renovator")})` : p.name }));
  const renovators = j.people.filter((p) => p.renovator).map((p) => ({ word: p.id, says: p.name }));
  const me = choose(people, Door.who, w("choose")), there = choose(renovators, here.renovator, w("nobody"));
  sheet(w("who"), el("div", { class: "top" }, tongue()), asked(w("who-me"), me), asked(w("who-renovator"), there),
    el("div", { class: "row" }, act(w("go-on"), async () => {
      if (!me.value) return me.focus();
      Door.who = me.value;
      here.renovator = there.value;
      await Store.note("who", me.value);
      await Store.note("renovator", there.value);
      go(contents);
    }, true)), note(j.caution));
}

const open_of = (groups) => groups.map((g) => (g.open ? `${g.open} ${w("open")}` : w("all-done")));

function contents() {
  draws(contents);
  const top = banner(), j = here.job;
  const name = (j.people.find((p) => p.id === Door.who) || { name: Door.who }).name;
  const areas = j.areas.map((a) => {
    const groups = Door.ask("steps", { area: a.id }).groups || [];
    const states = open_of(groups);
    const cloths = Door.ask("verify", { area: a.id });
    return [el("h2", {}, `${a.id} ${a.place} (${a.side})`),
      groups.map((g, i) => line(g.says, states[i], () => go(list, a.id, g.phase))),
      line(w("verification"), cloths.says, () => go(verify, a.id))];
  });
  const answers = ["demo", "signs"].map((g) => {
    const reply = Door.ask("gate", { gate: g });
    return line(reply.asks, reply.says, () => go(gate, g, ""));
  });
  sheet(w("contents"), el("div", { class: "top" }, act(`${w("i-am")} ${name}`, () => go(who)), tongue()), top,
    el("h2", {}, w("questions")), answers, areas, el("h2", {}, w("log")),
    ["reading", "kit_test", "practice", "training"].map((k) => line(w("kind." + k), "", () => go(form, k))),
    line(w("picture"), "", () => go(picture)), line(w("sign"), "", () => go(sign)),
    el("h2", {}, w("phone")), line(w("added"), String(j.added), () => go(added)),
    line(w("send"), String(j.unsent), () => go(send)), el("h2", {}, w("cautions")),
    note(j.caution), el("p", { class: "small" }, w("caution.phone")), el("p", { class: "small" }, w("caution.token")));
}

// ---- a list -----------------------------------------------------------------------------------

const looks = { done: "done", "not-needed": "not-needed", open: "open" };

function step_of(area, phase, s) {
  const wrong = el("div", { role: "alert" });
  const feet = s.measured && el("input", { inputmode: "decimal", autocomplete: "off" });
  const t = s.tick;
  const tick = async (fields) => {
    const { today, time } = clock();
    const all = { area, step: s.step, person: Door.who, on: today, time, ...fields };
    if (here.renovator) all.renovator = here.renovator;
    if (await add("add", { kind: "tick", fields: all }, null, wrong)) list(area, phase, s.step);
  };
  const leave_out = () => {
    const ground = choose(s.grounds, "", w("choose")), reason = el("textarea", { rows: 2 });
    box.replaceChildren(el("p", { class: "small" }, w("ground-note")), asked(w("ground"), ground)[0], ground,
      ...asked(w("reason"), reason), el("div", { class: "row" }, act(w("not-needed"), () =>
        tick({ state: "not-needed", ground: ground.value, reason: reason.value }), true)));
    ground.focus();
  };
  const undo = () => {
    const reason = el("textarea", { rows: 2 });
    box.replaceChildren(...asked(w("undo-reason"), reason), el("div", { class: "row" },
      act(w("undo"), () => tick({ state: "undone", reason: reason.value }), true)));
    reason.focus();
  };
  const box = el("div", {});
  return el("article", { id: "s-" + s.step }, el("p", {}, s.says), s.stricter && el("p", { class: "note" }, s.stricter),
    el("p", { class: "state " + (looks[s.state] || "wrong") }, s.state_says,
      t && ` · ${t.person} ${t.on} ${t.time}${t.measured ? " · " + t.measured + " ft" : ""}${t.reason ? " · " + t.reason : ""}`),
    feet && asked(w("feet"), feet),
    el("div", { class: "row" },
      act(w("done"), () => tick(feet ? { state: "done", measured: feet.value } : { state: "done" }), !s.settled),
      s.grounds.length > 0 && act(w("not-needed"), leave_out), t && act(w("undo"), undo)),
    box, wrong, el("details", {}, el("summary", {}, w("why")), el("p", {}, s.why), el("p", { class: "small" }, s.citation)));
}

function list(area, phase, at) {
  draws(list, area, phase);
  const group = Door.ask("steps", { area }).groups.find((g) => g.phase === phase);
  sheet(`${area} · ${group.says}`, back(), el("p", { class: "small" }, open_of([group])[0]),
    group.steps.map((s) => step_of(area, phase, s)),
    phase === "contain" && el("div", { class: "row" }, act(w("ask-demo"), () => go(gate, "demo", area), true)));
  const it = at && document.getElementById("s-" + at);
  if (it) it.scrollIntoView({ block: "start" });
}

// ---- a question ---------------------------------------------------------------------------------

const finding_of = (f) => el("article", { class: "finding" },
  el("p", {}, `${f.mark}: ${f.words}`), el("p", {}, f.subject && `${f.subject}: `, f.why),
  f.next && el("p", { class: "note" }, f.next),
  el("p", { class: "small" }, f.citation, f.fact && ` [${f.fact}]`, f.evidence && ` (${f.evidence})`));

function gate(name, area) {
  draws(gate, name, area);
  const top = banner(), reply = Door.ask("gate", { gate: name, area });
  if (reply.error) return sheet(w("questions"), back(), told(reply.error));
  sheet(reply.asks + (area ? ` (${area})` : ""), back(),
    el("p", { class: "answer " + (reply.answer === "yes" ? "yes" : "no"), id: "answer" }, reply.says),
    el("p", { class: "small" }, `${w("answer-of")} ${local(here.job.made)}. ${w("answer-added")} ${here.job.added}`),
    reply.left_out > 0 && note(`${w("left-out")} ${reply.left_out}`), remind(),
    reply.findings.map(finding_of), el("p", { class: "small" }, `${w("met")} ${reply.met}`),
    note(reply.caution), top);
}

// ---- cloths -------------------------------------------------------------------------------------

function verify(area) {
  draws(verify, area);
  const reply = Door.ask("verify", { area });
  if (reply.error) return sheet(w("verification"), back(), told(reply.error));
  const wrong = el("div", { role: "alert" });
  const log = async (may, more) => {
    const { today, time } = clock();
    const fields = { area, event: may.event, person: here.renovator || Door.who, on: today, time, ...more };
    if (may.cloth) fields.cloth = may.cloth;
    if (await add("add", { kind: "verification", fields }, null, wrong)) verify(area);
  };
  const wait = (s) => s.wait && el("div", { class: "note wait" },
    el("p", {}, `${w("wait-until")} ${s.wait.until} · ${w("wait-left")} ${s.wait.left} min`),
    el("meter", { min: 0, max: s.wait.whole, value: s.wait.whole - s.wait.left, "aria-label": w("wait-left") }),
    !s.wait.dry && el("p", {}, w("wait-dry")));
  sheet(`${area} · ${w("verification")}`, back(), el("p", { class: "answer " + (reply.verified ? "yes" : "no") }, reply.says),
    reply.why && note(reply.why), wrong, el("h2", {}, w("look")),
    el("div", { class: "row" }, reply.look.map((m) => act(m.says, () => log(m, {}), !reply.looked))),
    reply.sections.map((s) => el("article", { id: `v-${s.surface}-${s.section}` },
      el("p", {}, `${s.surface} ${s.sections > 1 ? `${s.section}/${s.sections} ` : ""}· ${s.place}`),
      el("p", { class: "state " + (s.state === "clean" ? "done" : "open") },
        `${s.says} · ${s.wet} ${w("wet")}, ${s.dry} ${w("dry")}`),
      s.refused && note(s.refused, true), wait(s),
      el("div", { class: "row" }, s.may.map((m) => act(m.says, () => log(m, { surface: s.surface, section: String(s.section) })))))),
    el("div", { class: "row" }, act(w("ask-signs"), () => go(gate, "signs", area), true)));
  if (reply.sections.some((s) => s.wait && s.wait.left > 0)) here.timer = setInterval(() => {
    if (clock().time === here.minute) return;
    here.minute = clock().time;
    go(verify, area);
  }, 5000);
}

// ---- a form -------------------------------------------------------------------------------------

const start_of = (f) => {
  const { today, time } = clock();
  if (f.value) return f.value;
  if (f.type === "date" && f.option === "on") return today;
  if (f.type === "time") return f.option === "began" ? "" : time; // when it began nobody knows but they
  return ["operator", "tester", "person", "trainer"].includes(f.option) ? Door.who : "";
};
const input_of = (f) => f.type === "choice" ? choose(f.choices, start_of(f), f.needed ? w("choose") : w("not-said"))
  : el("input", { type: f.type === "date" || f.type === "time" ? f.type : "text", value: start_of(f),
    inputmode: f.type === "number" ? "decimal" : null, autocomplete: "off" });

function form(kind, entry) {
  draws(form, kind, entry);
  const reply = Door.ask("form", entry ? { entry } : { kind });
  if (reply.error) return sheet(kind, back(), told(reply.error));
  const wrong = el("div", { role: "alert" }), reason = el("textarea", { rows: 2 });
  const inputs = reply.fields.map((f) => [f, input_of(f)]);
  const keep = async () => {
    const fields = {};
    for (const [f, it] of inputs)
      if (entry ? it.value !== f.value : it.value !== "") fields[f.option] = it.value;
    const done = entry ? await add("correct", { entry, fields, reason: reason.value }, null, wrong)
      : await add("add", { kind, fields }, null, wrong);
    if (done) go(entry ? added : contents);
  };
  sheet(entry ? `${w("correct")} ${entry}` : reply.says, back(),
    inputs.map(([f, it]) => asked(f.needed ? `${f.says} *` : f.says, it)),
    entry && asked(w("reason"), reason), wrong, el("div", { class: "row" }, act(w("keep"), keep, true)));
}

function withdraw(entry) {
  draws(withdraw, entry);
  const wrong = el("div", { role: "alert" }), reason = el("textarea", { rows: 2 });
  sheet(`${w("withdraw")} ${entry}`, back(), asked(w("reason"), reason), wrong,
    el("div", { class: "row" }, act(w("withdraw"), async () => {
      if (await add("correct", { entry, reason: reason.value }, null, wrong)) go(added);
    }, true)));
}

function added() {
  draws(added);
  const top = banner(), all = Door.ask("entries").all;
  sheet(w("added"), back(), top, all.map((e) => el("article", { id: "e-" + e.entry.replace("/", "-") },
    el("p", { class: e.withdrawn ? "gone" : null }, `${e.entry} · ${e.says}`),
    e.step && el("p", {}, e.step), el("p", { class: "small" }, `${e.at} · ${e.who} · ${e.sent ? w("sent") : w("not-sent")}`),
    e.corrected && el("p", { class: "small" }, `${w("corrected-by")} ${e.corrected}`),
    el("details", {}, el("summary", {}, w("details")),
      el("dl", {}, e.fields.map((f) => [el("dt", {}, f.name), el("dd", {}, f.value)]))),
    e.correctable && el("div", { class: "row" }, e.kind !== "attachment" && act(w("correct"), () => go(form, e.kind, e.entry)),
      act(w("withdraw"), () => go(withdraw, e.entry))))));
}

// ---- pictures --------------------------------------------------------------------------------------

const bytes_of = async (canvas, type) => {
  const blob = await new Promise((yes) => canvas.toBlob(yes, type, 0.8));
  return new Uint8Array(await blob.arrayBuffer());
};
// Drawn anew and smaller: where and with what it was taken does not go along.
const shrunk = async (file) => {
  const shot = await createImageBitmap(file), by = Math.min(1, 1600 / Math.max(shot.width, shot.height));
  const canvas = el("canvas", { width: Math.round(shot.width * by), height: Math.round(shot.height * by) });
  canvas.getContext("2d").drawImage(shot, 0, 0, canvas.width, canvas.height);
  return bytes_of(canvas, "image/jpeg");
};

function picture() {
  draws(picture);
  const wrong = el("div", { role: "alert" }), text = el("input", { autocomplete: "off" });
  const file = el("input", { type: "file", accept: "image/*", capture: "environment" });
  sheet(w("picture"), back(), el("p", {}, w("picture-note")), asked(w("picture-file"), file), asked(w("picture-shows"), text),
    wrong, el("div", { class: "row" }, act(w("keep"), async () => {
      let bytes;
      try { bytes = await shrunk(file.files[0]); } catch (fault) { return wrong.replaceChildren(note(w("picture-bad"), true)); }
      if (await add("attach", { name: "picture", note: text.value, about: "" }, bytes, wrong)) go(contents);
    }, true)));
}

function sign() {
  draws(sign);
  const top = banner(), wrong = el("div", { role: "alert" }), name = el("input", { autocomplete: "name" });
  const canvas = el("canvas", { width: 900, height: 280, "aria-label": w("sign-here"), role: "img" });
  const pen = canvas.getContext("2d");
  let drawn = false, down = false;
  const clear = () => { pen.fillStyle = "#fff"; pen.fillRect(0, 0, 900, 280); drawn = false; };
  const to = (e) => { const r = canvas.getBoundingClientRect(); return [(e.clientX - r.left) * 900 / r.width, (e.clientY - r.top) * 280 / r.height]; };
  canvas.onpointerdown = (e) => { down = true; canvas.setPointerCapture(e.pointerId); pen.beginPath(); pen.moveTo(...to(e)); };
  canvas.onpointermove = (e) => { if (!down) return; pen.lineWidth = 5; pen.lineCap = "round"; pen.strokeStyle = "#000"; pen.lineTo(...to(e)); pen.stroke(); drawn = true; };
  canvas.onpointerup = canvas.onpointercancel = () => { down = false; };
  sheet(w("sign"), back(), note(w("sign-note")), el("p", { class: "small" }, `${w("sign-over")} ${here.job.head}`),
    asked(w("sign-name"), name), el("p", {}, w("sign-here")), canvas, wrong,
    el("div", { class: "row" }, act(w("clear"), clear), act(w("keep"), async () => {
      if (!drawn || !name.value.trim()) return wrong.replaceChildren(note(w("sign-missing"), true));
      if (await add("attach", { name: name.value.trim(), sign: true, about: "" }, await bytes_of(canvas, "image/png"), wrong)) go(contents);
    }, true)), top);
  clear();
}

// ---- sending ----------------------------------------------------------------------------------------

// Of a page that the office serves: what the invitation left in this browser.
const served = location.pathname.split("/").pop();
const invited = () => (/^https?:$/.test(location.protocol) ? localStorage.getItem(`mistfold.token.${served}`) : null);

// The entries of a page are kept with it: a newer page takes its place once all of them arrived.
async function renew() {
  await (await caches.open("mistfold")).delete(`/field/${served}`);
  location.assign(`/new/${served}`);
}

// The receipt as text; what the office said of it is thrown as words.
async function hand_over(file, token) {
  const answer = await fetch(`/entries/${served}`, {
    method: "POST", body: file, credentials: "omit", cache: "no-store",
    headers: { Authorization: `Bearer ${token}`, "Content-Type": "application/vnd.mistfold.entries" },
  }).catch(() => { throw w("hand-unreached"); });
  if (answer.status === 401) throw w("hand-ended");
  const said = await answer.text();
  if (answer.status === 422) throw `${w("hand-refused")} ${["where", "what", "mend"].map((k) => JSON.parse(said)[k]).join(": ")}`;
  if (!answer.ok) throw `${w("hand-refused")} ${answer.status} ${said}`;
  return JSON.parse(said).devices.map((d) => `${d.device} ${d.seq} ${d.hash}`).join("\n");
}

function send() {
  draws(send);
  const top = banner(), wrong = el("div", { role: "alert" }), text = el("textarea", { rows: 4 });
  const reply = Door.ask("send");
  const file = new File([reply.file], reply.name, { type: "text/plain" });
  const link = URL.createObjectURL(file);
  const shares = navigator.canShare && navigator.canShare({ files: [file] });
  const got = async () => {
    const known = Door.ask("receipt", { text: text.value });
    if (known.error) return wrong.replaceChildren(told(known.error));
    await Store.note("receipt", text.value);
    go(send);
    say(w("receipt-good"));
  };
  const token = invited();
  const hand = async () => {
    try {
      text.value = await hand_over(file.slice(), token);
    } catch (fault) {
      return wrong.replaceChildren(note(String(fault), true));
    }
    await got();
  };
  sheet(w("send"), back(), top, el("p", {}, w("send-note")), el("p", {}, `${reply.entries} ${w("banner.added")}`),
    el("div", { class: "row" }, token && act(w("hand-over"), hand, true),
      token && here.job.unsent === 0 && act(w("renew"), renew),
      el("a", { href: link, download: reply.name, id: "file", class: "main" }, w("save-file")),
      shares && act(w("share"), () => navigator.share({ files: [file] }).catch(() => {}))),
    el("h2", {}, w("receipt")), el("p", {}, w("receipt-note")), asked(w("receipt-text"), text), wrong,
    el("div", { class: "row" }, act(w("receipt-check"), got)));
}

// ---- the start ---------------------------------------------------------------------------------------

// Where there are locks, a second window is told at once; where there are none, the first entry
// that both write under one number is refused.
const alone = () => new Promise((yes) => {
  if (!navigator.locks) return yes(true);
  navigator.locks.request(`mistfold ${made.name}`, { ifAvailable: true }, (lock) => {
    yes(lock !== null);
    return lock === null ? undefined : new Promise(() => {});
  });
});

async function start() {
  await Door.open();
  Door.lang = made.lang;
  made.name = document.title;
  read_words();
  if (!(await alone())) return sheet(w("two-windows"), note(w("unkept.two"), true));
  const loaded = await Door.load();
  if (loaded.error) return sheet(w("not-loaded"), told(loaded.error), el("p", { class: "small" }, loaded.error.where));
  Door.lang = (await Store.noted("lang")) || made.lang;
  Door.who = (await Store.noted("who")) || made.person;
  here.renovator = (await Store.noted("renovator")) || "";
  read_words();
  here.job = loaded;
  if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(() => {});
  go(loaded.people.some((p) => p.id === Door.who) && (await Store.noted("who")) ? contents : who);
}
if (typeof WebAssembly === "object" && typeof DecompressionStream === "function" && window.indexedDB)
  start().catch((fault) => { say(String(fault)); throw fault; });
