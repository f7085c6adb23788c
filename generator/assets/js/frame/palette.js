/* Lays the switch of the colours, and puts on those that the reader chose, before the page is painted: only such as the
   page offers. A page that comes with a switch, of a shop's own colours, keeps it. */
(function () {
  "use strict";
  const SYSTEM = "(prefers-color-scheme)";
  const DRAWN = "http://www.w3.org/2000/svg";
  const MOON = "M10 3a9 9 0 1 0 11 11A8 8 0 0 1 10 3";
  const SUN =
    "M7 12a5 5 0 0 0 10 0A5 5 0 0 0 7 12M12 1l2 4h-4M12 23l2-4h-4M1 12l4-2v4M23 12l-4-2v4M4 4l4 2-2 2M20 4l-4 2 2 2M4 20l4-2-2-2M20 20l-4-2 2-2";
  /** What a press brings, and its drawing. */
  const CHOICES = [
    { wanted: "light", scheme: "default", brings: "Dark", drawing: MOON },
    { wanted: "dark", scheme: "slate", brings: "Light", drawing: SUN },
  ];
  const /** @type {any} */ shared = window;

  /** @param {any} node @param {Object<string, string>} attributes */
  function dressed(node, attributes, ...children) {
    for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
    node.append(...children);
    return node;
  }

  function el(name, attributes, ...children) {
    return dressed(document.createElement(name), attributes, ...children);
  }

  function icon(drawing) {
    const path = dressed(document.createElementNS(DRAWN, "path"), { d: drawing });
    return dressed(document.createElementNS(DRAWN, "svg"), { viewBox: "0 0 24 24" }, path);
  }

  /** A choice, and the press that leads to the next. */
  function choice({ wanted, scheme, brings, drawing }, at) {
    const input = el("input", {
      class: "md-option",
      "data-md-color-media": `(prefers-color-scheme: ${wanted})`,
      "data-md-color-scheme": scheme,
      "data-md-color-primary": "custom",
      "data-md-color-accent": "custom",
      "aria-label": brings,
      type: "radio",
      name: "__palette",
      id: `__palette_${at}`,
    });
    const next = `__palette_${(at + 1) % CHOICES.length}`;
    return [input, el("label", { class: "md-header__button md-icon", title: brings, for: next, hidden: "" }, icon(drawing))];
  }

  const form = document.querySelector("form[data-md-component=palette]");
  if (form && !form.children.length) form.append(...CHOICES.flatMap(choice));
  const offered = [.../** @type {NodeListOf<HTMLInputElement>} */ (document.querySelectorAll("input[name=__palette]"))];

  function ofTheSystem() {
    return `(prefers-color-scheme: ${matchMedia("(prefers-color-scheme: light)").matches ? "light" : "dark"})`;
  }

  /** The choice on offer that is the one kept; what is kept may be anything. */
  function chosen(kept) {
    const { media, scheme } = Object(Object(kept).color);
    if (media === SYSTEM) return offered.find((input) => input.dataset.mdColorMedia === ofTheSystem());
    return offered.find((input) => input.dataset.mdColorMedia === media && input.dataset.mdColorScheme === scheme);
  }

  const kept = chosen(shared.__md_get("__palette"));
  for (const name of kept ? ["media", "scheme", "primary", "accent"] : []) {
    document.body.setAttribute(`data-md-color-${name}`, kept.getAttribute(`data-md-color-${name}`));
  }
})();
