/* The finder as people meet it: words in, symptoms out, at every keystroke. By keyboard it is a combobox
   with a list (WAI-ARIA Authoring Practices): arrows choose, Enter follows, Escape clears. */
(function () {
  "use strict";

  const { el } = handwheel;
  const SHOWN = 8;
  const PAGES = 6; // below the symptoms: enough to choose from, few enough for a phone
  const NAMED = 3; // above them: what is called exactly so

  function address(symptom, family) {
    const place = family && symptom.here ? `bench/${family}/${symptom.id}.html` : `symptoms/${symptom.id}.html`;
    return handwheel.root() + place;
  }

  /** What a like phrase is to the symptom. */
  function likeness({ field, like }) {
    if (field === "said") return `Said as “${like}”.`;
    if (field === "cause") return `Can come of: ${like}.`;
    if (field === "sign") return `A sign that goes with it: ${like}.`;
    return "By its name.";
  }

  function because(symptom) {
    const words = symptom.words.map(([said, read]) => (read ? `${said} = ${read}` : said));
    return `${likeness(symptom)} Your words: ${words.join(", ")}.`;
  }

  function familyNote(symptom, title) {
    return symptom.here ? null : el("small", { class: "hw-not-here" }, `Not known on ${title}: opens the symptom’s page.`);
  }

  function option(symptom, id, family, title) {
    return el(
      "a",
      { id, href: address(symptom, family), role: "option", tabindex: "-1", "aria-selected": "false", "data-symptom": symptom.id },
      el("b", {}, symptom.title),
      symptom.stop && el("b", { class: "hw-stop" }, "Stop the machine"),
      el("small", {}, because(symptom)),
      familyNote(symptom, title),
    );
  }

  function pageOption(page, id, kind) {
    return el(
      "a",
      { id, href: handwheel.root() + page.address, role: "option", tabindex: "-1", "aria-selected": "false", [kind]: page.address },
      el("b", {}, page.title),
      page.hub && el("small", {}, page.hub),
    );
  }

  /** A headed part of the list; nothing where it is empty. */
  function part(id, title, options) {
    if (!options.length) return null;
    const head = `${id}-head`;
    return el("div", { role: "group", "aria-labelledby": head, class: `hw-part-${id.split("-").pop()}` },
      el("div", { id: head, class: "hw-results-head", role: "presentation" }, title), options);
  }

  function nearest(text) {
    const groups = handwheel.finder.nearestGroups(text);
    const links = groups.map(([id, title]) => el("li", {}, el("a", { href: `${handwheel.root()}symptoms.html#${id}` }, title)));
    return [el("p", {}, "Look through these groups:"), el("ul", {}, links)];
  }

  /** Brings a finder to life. `box` has input, family, results (the list), status and nearest (elements). */
  function attach(box) {
    let chosen = -1;
    const options = () => [...box.results.querySelectorAll('[role="option"]')];

    function choose(place) {
      const all = options();
      chosen = all.length ? (place + all.length) % all.length : -1;
      all.forEach((item, i) => item.setAttribute("aria-selected", String(i === chosen)));
      if (chosen < 0) box.input.removeAttribute("aria-activedescendant");
      else {
        box.input.setAttribute("aria-activedescendant", all[chosen].id);
        all[chosen].scrollIntoView({ block: "nearest" });
      }
    }

    function told(found, pages, title) {
      if (!found.length && pages.length) return "No symptom fits these words; they stand on pages of the book.";
      if (!found.length) return "Nothing in the book fits these words. Say it another way, or name the part.";
      const count = found.length === 1 ? "One symptom fits." : `${found.length} symptoms fit, the likeliest first.`;
      return found.some((symptom) => symptom.here) && title ? `${count} Opens the bench page of ${title}.` : count;
    }

    function show() {
      const text = box.input.value.trim();
      const family = box.family.value;
      const title = box.family.selectedOptions[0].textContent;
      const found = text ? handwheel.finder.match(box.input.value, family).slice(0, SHOWN) : [];
      const named = text ? handwheel.finder.byName(text, family, NAMED) : [];
      const above = new Set(named.map((page) => page.address));
      const pages = text ? handwheel.finder.pages(text, family, PAGES).filter((page) => !above.has(page.address)) : [];
      const id = box.results.id;
      const symptoms = found.map((s, i) => option(s, `${id}-${i + 1}`, family, title));
      const called = named.map((p, i) => pageOption(p, `${id}-name-${i + 1}`, "data-named"));
      const others = pages.map((p, i) => pageOption(p, `${id}-page-${i + 1}`, "data-page"));
      const parts = [part(`${id}-named`, "By this name", called), part(`${id}-symptoms`, "What is wrong", symptoms), part(`${id}-pages`, "Pages with these words", others)];
      box.results.replaceChildren(...parts.filter(Boolean));
      box.results.hidden = !options().length;
      box.nearest.replaceChildren(...(text && !options().length ? nearest(text) : []));
      box.input.setAttribute("aria-expanded", String(!box.results.hidden));
      chosen = -1;
      box.input.removeAttribute("aria-activedescendant");
      box.status.classList.toggle("hw-nothing", Boolean(text) && !options().length);
      box.status.textContent = text ? told(found, [...named, ...pages], family && title) : "";
    }

    function key(event) {
      const moves = { ArrowDown: chosen + 1, ArrowUp: chosen < 0 ? -1 : chosen - 1 };
      if (event.key in moves && options().length) choose(moves[event.key]);
      else if (event.key === "Enter" && options().length) options()[Math.max(0, chosen)].click();
      else if (event.key === "Escape" && box.input.value) {
        box.input.value = "";
        show();
      } else return;
      event.preventDefault();
    }

    box.input.addEventListener("input", show);
    box.input.addEventListener("keydown", key);
    box.family.addEventListener("change", show);
    document.addEventListener("handwheel:family", show);
    document.addEventListener("handwheel:pages", show);
    show();
  }

  handwheel.finder = Object.assign(handwheel.finder || {}, { attach, pages: () => [], byName: () => [] });
  handwheel.whenGiven("finder", ({ language }) => {
    handwheel.give("finder-ready", {});
    handwheel.whenGiven("pages", (data) => {
      const { search, byName } = handwheel.finder.pageSearch(data, new Set(language.filler));
      Object.assign(handwheel.finder, { pages: search, byName });
      document.dispatchEvent(new Event("handwheel:pages"));
    });
  });
})();
