/* What this device keeps of the book: shown, and cleared. */
(function () {
  "use strict";
  const { device, el, has, root } = handwheel;
  const list = document.getElementById("device-kept");
  const said = document.getElementById("device-said");

  const { symptoms, families } = JSON.parse(document.querySelector(".hw-device").dataset.names);
  const count = (items, one) => `${items.length || "no"} ${one}${items.length === 1 ? "" : "s"}`;

  /** A walk's own entry, and the one that says that it stands open: shown and forgotten together. */
  function walkOf(name) {
    const [, , family, symptom] = /^(walk|walking)\.([^.]+)\.([^.]+)$/.exec(name) || [];
    if (!symptom) return null;
    const answers = device.read(`walk.${family}.${symptom}`, []);
    const listed = has(families, family);
    return {
      title: `Walk: ${has(symptoms, symptom) ? symptoms[symptom] : symptom}, ${listed ? families[family] : "a machine that is not listed"}, ${count(answers, "answer")}`,
      names: [`walk.${family}.${symptom}`, `walking.${family}.${symptom}`],
      href: listed ? `bench/${family}/${symptom}.html` : "not-listed.html",
      goOn: () => listed && device.write(`walking.${family}.${symptom}`, true),
    };
  }

  const OTHERS = {
    family: (name) => {
      const id = device.read(name, "");
      return has(families, id) ? { title: `Machine chosen: ${families[id]}`, href: `families/${id}.html` } : { title: "Machine chosen: any", href: "" };
    },
    "not-listed": (name) => ({ title: `Machine that is not listed: ${device.read(name, {}).title || "not named"}`, href: "not-listed.html" }),
    finished: (name) => ({ title: `Finished walks: ${count(device.read(name, []).filter((job) => job.date), "job")}`, href: "" }),
    "practice.scores": (name) => ({ title: `Practice: ${count(device.read(name, []), "score")}`, href: "practice.html" }),
  };

  /** {title, names, href, goOn} of what is kept under a name; what no page of this book keeps has its name for a title. */
  function keptAs(name) {
    const other = has(OTHERS, name) ? OTHERS[name] : () => ({ title: name, href: "" });
    return { names: [name], goOn: () => {}, ...(walkOf(name) || other(name)) };
  }

  /** Shows what is left, here and in the table of finished walks. */
  function forgotten() {
    show();
    window.dispatchEvent(new Event("handwheel-forgotten"));
  }

  function forget(kept) {
    kept.names.forEach((name) => device.forget(name));
    said.textContent = `Forgotten: ${kept.title}.`;
    forgotten();
  }

  function raw(names) {
    const values = names.filter((name) => device.names().includes(name)).map((name) => `${name}: ${JSON.stringify(device.read(name, null))}`);
    return el("details", {}, el("summary", {}, "As it is kept"), values.map((value) => el("code", {}, value)));
  }

  function entry(name) {
    const kept = keptAs(name);
    return el("li", { "data-kept": name }, el("b", {}, kept.title),
      el("span", { class: "hw-kept-do" },
        kept.href && el("a", { class: "hw-button", href: root() + kept.href, onclick: kept.goOn }, "Go on"),
        el("button", { type: "button", onclick: () => forget(kept), "aria-label": `Forget: ${kept.title}` }, "Forget")),
      raw(kept.names));
  }

  function show() {
    const names = device.names();
    const shown = names.filter((name) => keptAs(name).names.find((twin) => names.includes(twin)) === name);
    list.replaceChildren(...shown.map(entry));
    document.getElementById("device-none").hidden = names.length > 0;
    document.getElementById("device-all").hidden = names.length === 0;
  }

  function forgetAll() {
    device.names().forEach((name) => device.forget(name));
    said.textContent = "All forgotten.";
    forgotten();
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
