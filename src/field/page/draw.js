// draw.js - the pieces that sheets are drawn of. Every text comes from the door.
"use strict";

const el = (tag, has, ...kids) => {
  const it = document.createElement(tag);
  for (const [name, value] of Object.entries(has || {})) {
    if (name.startsWith("on")) it[name] = value;
    else if (value === true) it.setAttribute(name, "");
    else if (value !== false && value != null) it.setAttribute(name, value);
  }
  it.append(...kids.flat(9).filter((k) => k != null && k !== false && k !== ""));
  return it;
};

let words = {};
const w = (id) => words["field.page." + id] || id;
const read_words = () => {
  words = Door.ask("words", { prefix: "field.page." }).words;
  document.documentElement.lang = Door.lang;
};

const say = (text) => { document.getElementById("said").textContent = text; };

// A sheet in place of the one before; what it is stands first and gets the focus.
const sheet = (title, ...kids) => {
  const head = el("h1", { tabindex: "-1" }, title);
  document.getElementById("sheet").replaceChildren(head, ...kids.flat(9).filter((k) => k));
  head.focus();
  window.scrollTo(0, 0);
};

const act = (text, fn, main) => el("button", { type: "button", class: main && "main", onclick: fn }, text);
const line = (text, state, fn) =>
  el("button", { type: "button", class: "line", onclick: fn }, el("span", {}, text), el("i", {}), el("b", {}, state));
const note = (text, bad) => el("p", { class: bad ? "note bad" : "note" }, text);

// A label and what it stands over.
let number = 0;
const asked = (text, it) => {
  it.id = "a" + ++number;
  return [el("label", { for: it.id }, text), it];
};
const choose = (choices, value, none) =>
  el("select", {}, none != null && el("option", { value: "" }, none),
    choices.map((c) => el("option", { value: c.word, selected: c.word === value }, c.says)));

const told = (error) => note(error.text, true);
