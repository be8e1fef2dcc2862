// Says that something is being done: planning again takes some seconds. Forms work without this.
document.addEventListener("submit", (event) => {
  const button = event.submitter;
  if (!button || !button.dataset.busy) return;
  if (button.getAttribute("aria-busy") === "true") {
    event.preventDefault();
    return;
  }
  button.setAttribute("aria-busy", "true");
  button.textContent = button.dataset.busy;
});
window.addEventListener("pageshow", (event) => {
  // A page that comes back from the browser's memory still shows what was being done.
  if (event.persisted) location.reload();
});
