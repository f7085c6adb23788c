/* The ranking of causes beside the walk: rows that stay themselves while they move. */
(function () {
  "use strict";
  const { el, percent } = handwheel;
  const { causeLinks } = handwheel.walkWords;

  const SHOWN = 6; // rows before "Show all"

  function row(of, hypothesis) {
    return el(
      "li",
      { "data-cause": hypothesis.id },
      el("span", {}, ...causeLinks(of.family, hypothesis)),
      el("b", {}),
      el("i", {}),
      el("small", {}, `${hypothesis.rests[0].toUpperCase()}${hypothesis.rests.slice(1)}.`)
    );
  }

  function fill(item, share) {
    item.dataset.share = String(share);
    item.querySelector(":scope > b").textContent = percent(share);
    item.querySelector(":scope > i").style.width = `${100 * share}%`;
    item.classList.toggle("hw-out-of-it", share === 0);
  }

  /** Where each row that is shown stands in its list: what stands above the list may come and go. */
  function places(list) {
    const shown = [...list.children].filter((item) => item.offsetParent);
    return new Map(shown.map((item) => [item, item.offsetTop - list.offsetTop]));
  }

  /** Rows glide from their old places, never beyond their list, where they would take a press meant for a button. */
  function glide(list, was) {
    if (matchMedia("(prefers-reduced-motion: reduce)").matches) return;
    places(list).forEach((top, item) => {
      const lowest = list.offsetHeight - item.offsetHeight; // the list may be shorter than it was
      const shift = was.has(item) ? Math.min(was.get(item), lowest) - top : 0;
      if (shift && item.animate) {
        item.animate([{ transform: `translateY(${shift}px)` }, { transform: "none" }], { duration: 250, easing: "ease-out" });
      }
    });
  }

  function showAll(list, count) {
    const button = el("button", { type: "button", class: "hw-plain", "aria-expanded": "false" });
    const say = () => (button.textContent = list.classList.contains("hw-few") ? `Show all ${count}` : "Show fewer");
    button.addEventListener("click", () => {
      button.setAttribute("aria-expanded", String(!list.classList.toggle("hw-few")));
      say();
    });
    say();
    return count > SHOWN ? button : null;
  }

  /** {node, update(shares)}: `shares` has ids in the order to show; ids that are not in it have 0. */
  function causesView(of) {
    const rows = new Map(of.causes.map((h) => [h.id, row(of, h)]));
    const list = el("ol", { class: "hw-causes hw-few" }, ...rows.values());
    function update(shares) {
      const was = places(list);
      const order = [...Object.keys(shares), ...[...rows.keys()].filter((id) => !(id in shares))];
      const items = order.map((id) => rows.get(id));
      items.forEach((item, number) => {
        if (list.children[number] !== item) list.insertBefore(item, list.children[number]);
        fill(item, shares[order[number]] || 0);
      });
      glide(list, was);
    }
    return { node: el("div", {}, list, showAll(list, rows.size)), update };
  }

  handwheel.causesView = causesView;
})();
