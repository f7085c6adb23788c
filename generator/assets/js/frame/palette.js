/* Puts on the colours that the reader chose, before the page is painted: only such as the page offers. */
(function () {
  "use strict";
  const SYSTEM = "(prefers-color-scheme)";
  const /** @type {any} */ shared = window;
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

  const choice = chosen(shared.__md_get("__palette"));
  for (const name of choice ? ["media", "scheme", "primary", "accent"] : []) {
    document.body.setAttribute(`data-md-color-${name}`, choice.getAttribute(`data-md-color-${name}`));
  }
})();
