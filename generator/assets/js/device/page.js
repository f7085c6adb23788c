/* What this device keeps of the book: shown, and cleared. */
(function () {
  "use strict";
  const { device, el } = handwheel;
  const list = document.getElementById("device-kept");
  const said = document.getElementById("device-said");

  function titleOf(name) {
    const [kind, ...rest] = name.split(/[.:/]/);
    return [kind.replace(/-/g, " "), ...rest].join(", ");
  }

  function forget(name) {
    device.forget(name);
    said.textContent = `Forgotten: ${titleOf(name)}.`;
    show();
  }

  function entry(name) {
    const value = JSON.stringify(device.read(name, null));
    return el(
      "li",
      { "data-kept": name },
      el("b", {}, titleOf(name)),
      el("code", {}, value.length > 120 ? `${value.slice(0, 120)} ...` : value),
      el("button", { type: "button", onclick: () => forget(name) }, "Forget this")
    );
  }

  function show() {
    const names = device.names();
    list.replaceChildren(...names.map(entry));
    document.getElementById("device-none").hidden = names.length > 0;
    document.getElementById("device-all").hidden = names.length === 0;
  }

  function forgetAll() {
    device.names().forEach((name) => device.forget(name));
    said.textContent = "All forgotten.";
    show();
  }

  async function pages() {
    const status = document.getElementById("device-pages");
    if (!("caches" in window) || !location.protocol.startsWith("http")) {
      status.textContent = "Opened from disk: the pages are the files themselves, nothing is copied.";
      return;
    }
    const names = (await caches.keys()).filter((name) => name.startsWith("handwheel-"));
    let count = 0;
    for (const name of names) count += (await (await caches.open(name)).keys()).length;
    status.textContent = count ? `${count} files are kept for use without signal.` : "No pages are kept.";
    document.getElementById("device-drop").hidden = count === 0;
  }

  async function drop() {
    for (const worker of await navigator.serviceWorker.getRegistrations()) await worker.unregister();
    for (const name of await caches.keys()) if (name.startsWith("handwheel-")) await caches.delete(name);
    said.textContent = "The kept pages are gone. They come back with the next visit.";
    pages();
  }

  document.getElementById("device-all").addEventListener("click", forgetAll);
  document.getElementById("device-drop").addEventListener("click", drop);
  show();
  pages();
})();
