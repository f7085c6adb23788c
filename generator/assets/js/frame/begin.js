/* What the theme's script looks for before it runs: the book's root, and what this device keeps of a reader's choices.
   The theme would write it into every page; a file lets the pages refuse all script that is written into them.
   It is the first part of frame.js, and a file of its own for pages that hold their frame. */
(function () {
  "use strict";
  const own = /** @type {HTMLScriptElement} */ (document.currentScript);
  const root = new URL(own.src.replace(/(assets\/handwheel\/js\/frame\/begin|frame)\.js$/, "")); // of the site

  function hash(text) {
    return [...text].reduce((sum, letter) => (sum << 5) - sum + letter.charCodeAt(0), 0);
  }

  function keptAs(name, scope) {
    return `${scope.pathname}.${name}`;
  }

  /** What was kept under a name; null where nothing was, where it cannot be read, or where the browser refuses. */
  function get(name, storage, scope = root) {
    try {
      return JSON.parse((storage || localStorage).getItem(keptAs(name, scope)));
    } catch (error) {
      return null;
    }
  }

  function set(name, value, storage, scope = root) {
    try {
      (storage || localStorage).setItem(keptAs(name, scope), JSON.stringify(value));
    } catch (error) {
      /* A browser may refuse; then nothing is kept. */
    }
  }

  Object.assign(window, { __md_scope: root, __md_hash: hash, __md_get: get, __md_set: set });
})();
