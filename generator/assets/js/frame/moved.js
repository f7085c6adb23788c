/* A page that has another address now leads on by itself; this takes the part of the page that a link named along. */
(function () {
  "use strict";
  const own = /** @type {HTMLScriptElement} */ (document.currentScript);
  if (location.hash) location.replace(own.dataset.to + location.hash);
})();
