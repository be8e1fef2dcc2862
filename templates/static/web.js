// What a page does beyond its forms, which work without this: it says that something is being worked
// out, and keeps ticks on the device while nothing reaches the server.
"use strict";

const box = document.getElementById("kept");

// Planning again takes some seconds.
function busy(button) {
  if (!button || !button.dataset.busy) return;
  button.setAttribute("aria-busy", "true");
  button.textContent = button.dataset.busy;
}

document.addEventListener("submit", (event) => {
  const form = event.target, button = event.submitter;
  if (form.dataset.reached) return;
  if (button && button.getAttribute("aria-busy") === "true") {
    event.preventDefault();
    return;
  }
  if (box && "tick" in form.dataset) {
    event.preventDefault();
    ticked(form, button);
    return;
  }
  busy(button);
});

window.addEventListener("pageshow", (event) => {
  // A page that comes back from the browser's memory still shows what was being done.
  if (event.persisted) location.reload();
});

// Whether the server can be reached at this moment; a network that answers nothing is none.
async function reached() {
  if (!navigator.onLine) return false;
  try {
    const stop = AbortSignal.timeout(4000);
    const asked = { method: "HEAD", cache: "no-store", signal: stop };
    return (await fetch("/robots.txt", asked)).ok;
  } catch {
    return false;
  }
}

async function ticked(form, button) {
  const name = nameOf(form, button), said = button ? button.textContent : "";
  busy(button);
  if (await reached()) {
    form.dataset.reached = "yes";
    form.requestSubmit(button);
    return;
  }
  const fields = new URLSearchParams(new FormData(form, button));
  fields.set("kept_on", dayOfLawn());
  keep({ name, fields: fields.toString(), keys: keysOf(fields) });
  if (button) {
    button.removeAttribute("aria-busy");
    button.textContent = said;
    button.disabled = true;
  }
  box.scrollIntoView();
}

// What a tick is called where it waits: its job, and what is said of it.
function nameOf(form, button) {
  const card = form.closest("article, section");
  const title = card && card.querySelector("h3, h2");
  const parts = [title, button].map((one) => (one ? one.textContent.trim() : ""));
  return parts.filter((one, n) => one && !(n === 0 && parts[1].includes(one))).join(": ");
}

function keysOf(fields) {
  const keys = [...fields].filter(([name]) => name.startsWith("key:")).map(([, key]) => key);
  // One form tells of many things: each waits by itself.
  return [...keys, ...fields.getAll("what")].sort().join(" ");
}

// The day it is where the lawn lies, wherever the device is.
function dayOfLawn() {
  const form = { timeZone: box.dataset.zone, year: "numeric", month: "2-digit", day: "2-digit" };
  const parts = new Intl.DateTimeFormat("en", form).formatToParts(new Date());
  const part = (type) => parts.find((one) => one.type === type).value;
  return `${part("year")}-${part("month")}-${part("day")}`;
}

// What waits, and what could not be written as it stood, each kept by the address of the lawn. A
// browser that keeps nothing has them as long as the page stays open.
let memory = {};
const place = (list) => `turfplan:${list}:${box.dataset.home}`;
function stored(list) {
  try {
    return JSON.parse(localStorage.getItem(place(list)) || "[]");
  } catch {
    return memory[list] || [];
  }
}
function store(list, ticks) {
  memory[list] = ticks;
  try {
    localStorage.setItem(place(list), JSON.stringify(ticks));
  } catch {
    // The page itself has them.
  }
  show();
}

// Of one job the last word counts.
function keep(tick) {
  store("waiting", [...stored("waiting").filter((one) => one.keys !== tick.keys), tick]);
}

function show() {
  for (const list of ["waiting", "refused"]) {
    const part = box.querySelector(`[data-list="${list}"]`), ticks = stored(list);
    part.hidden = ticks.length === 0;
    part.querySelector("ul").replaceChildren(...ticks.map((tick, n) => line(part, list, tick, n)));
  }
  box.querySelector(".out").hidden = navigator.onLine;
  box.querySelector(".open").hidden = window.isSecureContext;
}

function line(part, list, tick, number) {
  const row = part.querySelector("template").content.cloneNode(true).firstElementChild;
  row.querySelector("span").textContent = tick.name;
  row.querySelector("button").addEventListener("click", () => {
    store(list, stored(list).filter((_, n) => n !== number));
  });
  return row;
}

let sending = false;
async function send() {
  if (sending || stored("waiting").length === 0) return;
  sending = true;
  let written = 0;
  while ((await reached()) && stored("waiting").length > 0) {
    const tick = stored("waiting")[0], body = new URLSearchParams(tick.fields);
    let answer;
    try {
      answer = await fetch(box.dataset.home, { method: "POST", body, redirect: "manual" });
    } catch {
      break;
    }
    const taken = answer.type === "opaqueredirect";
    // Too many requests, a server that fails, or nobody signed in: it is tried again later.
    if (!taken && ([401, 429].includes(answer.status) || answer.status >= 500)) break;
    if (!taken) store("refused", [...stored("refused"), tick]);
    else written += 1;
    store("waiting", stored("waiting").filter((one) => one.fields !== tick.fields));
  }
  sending = false;
  if (written > 0) location.replace(box.dataset.home);
}

if (box) {
  show();
  send();
  window.addEventListener("online", () => { show(); send(); });
  window.addEventListener("offline", show);
  setInterval(send, 30000);
  // With encryption the page opens without signal, too; without it a browser allows no worker.
  // Pages of a crew say how to get in: a device keeps none of them.
  const kept = !box.dataset.home.startsWith("/crew/");
  if (kept && window.isSecureContext && "serviceWorker" in navigator) {
    navigator.serviceWorker.register("/worker.js").then(() => navigator.serviceWorker.ready)
      .then(() => caches.open("turfplan"))
      .then((pages) => pages.add(location.pathname))
      .catch(() => {});
  }
}
// Who signs out, or in, leaves no page of a lawn on the device.
if (document.querySelector("[data-forget]") && window.isSecureContext && "caches" in window) {
  caches.delete("turfplan").catch(() => {});
}
