/* The bench page's button: opens the walk in place of the page's own lists, and closes it again. */
(function () {
  "use strict";
  const { device } = handwheel;

  const page = document.querySelector(".hw-bench[data-symptom]");
  const button = document.getElementById("walk-start");
  const slot = document.getElementById("walk");
  const { family, symptom } = page.dataset;
  const keepAs = `walk.${family}.${symptom}`;
  const openAs = `walking.${family}.${symptom}`;
  let ready = null; // a walk made while nothing else was to do, so that the press only has to show it
  const labels = { false: button.textContent, true: "Show the whole page" };

  function show(open) {
    slot.hidden = !open;
    page.classList.toggle("hw-walking", open);
    button.textContent = labels[open];
    button.setAttribute("aria-expanded", String(open));
    if (open) device.write(openAs, true);
    else device.forget(openAs);
  }

  /** The page's words for what comes before any check; the walk shows them above its first. */
  function beforeAnything() {
    const words = page.querySelector(".hw-head .hw-first");
    const copy = words && /** @type {Element} */ (words.cloneNode(true));
    if (copy) copy.querySelector("h2").removeAttribute("id");
    return copy;
  }

  function made(data, linked) {
    ready = null;
    const walk = handwheel.walk.walk(handwheel.caseOf(data, symptom), keepAs, linked, { first: beforeAnything() });
    slot.replaceChildren(walk.node);
    return walk;
  }

  function open(data, linked) {
    const walk = made(data, linked);
    show(true);
    return walk;
  }

  /** A link into a walk; it is taken off the address, so that a reload goes on from here. */
  function follow(data) {
    const linked = handwheel.walk.fromHash(location.hash);
    if (!linked) return;
    history.replaceState(null, "", location.href.split("#")[0]);
    open(data, linked).begin();
  }

  handwheel.withFamily(family, (data) => {
    button.addEventListener("click", () => {
      if (!slot.hidden) return show(false);
      const walk = ready || made(data);
      ready = null;
      show(true);
      return walk.begin();
    });
    if (device.read(openAs, false)) open(data);
    follow(data);
    if (slot.hidden) handwheel.whenIdle(() => (ready = slot.hidden ? made(data) : null));
    window.addEventListener("hashchange", () => follow(data));
  });
})();
