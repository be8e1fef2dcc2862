/* Ticks that this device keeps, by lawn and task, where it lets a file keep anything; else the boxes stay drawn. Then today first. */
(function () {
  "use strict";
  var nav = document.querySelector(".weeks-nav");
  var lawn = document.documentElement.dataset.lawn || "";
  var store = null;
  try {
    store = window.localStorage;
    store.setItem("turfplan", "1");
    store.removeItem("turfplan");
  } catch (refused) {
    store = null;
  }
  function told(tag, text) {
    var made = document.createElement(tag);
    made.textContent = text;
    return made;
  }
  function keep(box) {
    var key = "turfplan " + lawn + " " + box.dataset.tick;
    function show(ticked) { box.setAttribute("aria-checked", String(ticked)); }
    function turn() {
      var ticked = box.getAttribute("aria-checked") !== "true";
      if (ticked) { store.setItem(key, "1"); } else { store.removeItem(key); }
      show(ticked);
    }
    box.removeAttribute("aria-hidden");
    box.setAttribute("role", "checkbox");
    box.setAttribute("tabindex", "0");
    box.setAttribute("aria-label", box.dataset.of);
    show(store.getItem(key) === "1");
    box.addEventListener("click", turn);
    box.addEventListener("keydown", function (event) {
      if (event.key === " " || event.key === "Enter") { event.preventDefault(); turn(); }
    });
  }
  if (store) {
    document.documentElement.classList.add("kept");
    document.querySelectorAll("[data-tick]").forEach(keep);
    var device = told("p", nav.dataset.device);
    device.className = "device";
    nav.appendChild(device);
  }
  var now = new Date();
  var today = new Date(now.getTime() - now.getTimezoneOffset() * 60000).toISOString().slice(0, 10);
  var days = Array.from(document.querySelectorAll("section.day"));
  var next = days.find(function (day) { return day.dataset.day >= today; });
  if (next) {
    next.id = next.id || "today";
    var jump = told("a", nav.dataset.today);
    jump.className = "jump";
    jump.href = "#" + next.id;
    nav.insertBefore(jump, nav.children[1] || null);
    var leaves = Array.from(document.querySelectorAll("main > .leaf, main > .map-page:not(#fill)"));
    var past = leaves.slice(0, leaves.indexOf(next.closest(".leaf")));
    past.forEach(function (leaf) { leaf.classList.add("past"); });
    if (past.length) {
      var more = told("button", nav.dataset.earlier);
      more.type = "button";
      more.addEventListener("click", function () { document.body.classList.add("show-past"); more.remove(); });
      nav.appendChild(more);
    }
  }
}());
