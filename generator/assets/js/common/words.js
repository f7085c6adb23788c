/* Lays under a page what its marked words mean: each is a link into the glossary, and with this leads to the foot of the
   page instead. The meanings stand once in the book and not on every page that uses them. */
(function () {
  "use strict";
  const { el, whenGiven, load } = handwheel;
  const links = /** @type {HTMLAnchorElement[]} */ ([...document.querySelectorAll('article a[href*="glossary.html#"]')]);
  links.forEach((link) => link.classList.add("hw-term"));
  if (!links.length) return;

  const idOf = (link) => decodeURIComponent(link.hash.slice(1));

  function entry(link, [title, means]) {
    const told = el("dd", {});
    told.innerHTML = means; // record text that our own Markdown converter made
    return el("div", { id: `word-${idOf(link)}` }, el("dt", {}, el("a", { href: link.getAttribute("href") }, title)), told);
  }

  whenGiven("words", ({ terms }) => {
    const known = links.filter((link) => handwheel.has(terms, idOf(link)));
    known.sort((a, b) => (terms[idOf(a)][0].toLowerCase() < terms[idOf(b)][0].toLowerCase() ? -1 : 1));
    const list = el("dl", {}, known.map((link) => entry(link, terms[idOf(link)])));
    known.forEach((link) => link.setAttribute("href", `#word-${idOf(link)}`));
    const laid = el("details", { class: "hw-words", id: "words" }, el("summary", {}, "Words used here"), list);
    const article = document.querySelector("article");
    article.insertBefore(laid, article.querySelector(":scope > .hw-mending"));
    if (location.hash.startsWith("#word-")) location.replace(location.hash);
  });
  load("assets/handwheel/data/words.js");
})();
