/* The guided walk: keeps the log on this device, shows where it stands, takes what is pressed. */
(function () {
  "use strict";
  const { el, device, minutes, percent } = handwheel;
  const { stand, known } = handwheel.journey;
  const { fromPairs, toHash, fromHash } = handwheel.walkLog;
  const { partLinks, causeName, said } = handwheel.walkWords;

  /** What never changes while the walk is open; the rest is filled in at each step. `first` comes before any check. */
  function frame(of, first) {
    const causes = handwheel.causesView(of);
    const parts = {
      heading: el("h2", { id: "walk-heading", tabindex: "-1" }, "One check at a time"),
      figures: el("ul", { class: "hw-facts hw-walk-figures" }),
      open: el("p", { class: "hw-walk-open" }),
      said: el("div", {}),
      first: el("div", { class: "hw-walk-first" }, first),
      step: el("div", {}),
      tools: el("div", { class: "hw-walk-tools" }),
      share: el("div", { class: "hw-walk-share" }),
      history: el("div", {}),
      live: el("p", { class: "hw-sr", role: "status", "aria-live": "polite" }),
      causes,
    };
    const { heading, figures, open, step, tools, share, history, live } = parts;
    const work = el("div", {}, heading, figures, open, parts.said, parts.first, step, tools, share, history);
    const side = el("aside", { class: "hw-walk-causes" }, el("h3", {}, "Causes, as it stands"), causes.node);
    parts.node = el("div", { class: "hw-walk" }, live, work, side);
    return parts;
  }

  function figures(state) {
    const still = `${state.planned ? "" : "about "}${minutes(state.expected)} still to expect`;
    const facts = [
      el("li", {}, el("b", { class: "hw-min" }, minutes(state.spent)), " spent"),
      state.step && el("li", {}, still),
    ];
    return facts.filter(Boolean);
  }

  function openParts(of, state) {
    if (!state.open.length) return ["Nothing is open."];
    return ["Open now: ", ...partLinks(of.family, state.open), ". Fit again what the next step needs; closing is counted in the minutes."];
  }

  function spoken(of, state) {
    const [[id, share]] = Object.entries(state.ranking.shares);
    const likeliest = `Likeliest: ${causeName(of.family, of.causes.find((h) => h.id === id))}, ${percent(share)}.`;
    const still = state.step ? ` ${minutes(state.expected)} still to expect.` : "";
    return `${said(of, state.ranking.said)} ${likeliest}${still}`.trim();
  }

  class Walk {
    constructor(of, keepAs, { linkPairs, first }, kept) {
      this.of = of;
      this.keepAs = keepAs;
      this.linkPairs = linkPairs;
      this.log = known(of, kept);
      this.before = null;
      this.parts = frame(of, first);
      this.show();
    }

    /** Adds what was pressed. */
    act(entry) {
      this.change([...this.log, entry], null);
    }

    /** Goes back to before an entry; what was there can be had again. */
    cut(number) {
      this.change(this.log.slice(0, number), this.log);
    }

    change(log, before) {
      this.log = log;
      this.before = before;
      device.write(this.keepAs, log);
      this.show();
      handwheel.finished.note(this.keepAs, this.of, this.log, this.state);
      this.focus();
      this.parts.live.textContent = spoken(this.of, this.state);
    }

    focus() {
      const title = this.parts.step.querySelector(".hw-walk-title");
      title.focus({ preventScroll: true });
      title.closest(".hw-walk").scrollIntoView({ block: "start" });
    }

    /** A fresh walk begins with what comes before any check; one under way goes on where it stands. */
    begin() {
      if (this.log.length) return this.focus();
      this.parts.heading.focus({ preventScroll: true });
      this.parts.node.scrollIntoView({ block: "start" });
    }

    show() {
      const { parts, of } = this;
      this.state = stand(of, this.log);
      const words = said(of, this.state.ranking.said);
      parts.figures.replaceChildren(...figures(this.state));
      parts.open.replaceChildren(...openParts(of, this.state));
      parts.said.replaceChildren(...(words ? [el("p", { class: "hw-caution" }, words)] : []));
      parts.first.hidden = this.log.length > 0;
      parts.step.replaceChildren(handwheel.stepView(of, this.state, (entry) => this.act(entry)));
      parts.tools.replaceChildren(...this.tools());
      parts.share.replaceChildren();
      parts.history.replaceChildren(...[handwheel.walkHistory.historyView(of, this.log, (n) => this.cut(n))].filter(Boolean));
      parts.causes.update(this.state.ranking.shares);
    }

    tools() {
      const tool = (words, onclick) => el("button", { type: "button", class: "hw-plain", onclick }, words);
      const there = Boolean(this.log.length);
      return [
        there && tool("Back", () => this.cut(this.log.length - 1)),
        this.before && tool("Undo", () => this.change(this.before, null)),
        there && tool("Start again", () => this.cut(0)),
        tool("Share this walk", () => this.share()),
      ].filter(Boolean);
    }

    /** Shows the walk as a message with its link, to copy. */
    share() {
      const link = location.href.split("#")[0] + toHash(this.log, this.linkPairs());
      const text = handwheel.walkHistory.message(this.of, this.log, this.state, link);
      const area = el("textarea", { readonly: true, rows: 6, id: "walk-message" }, text);
      const copy = el("button", { type: "button", class: "hw-plain", onclick: () => this.copy(area) }, "Copy");
      this.parts.share.replaceChildren(el("label", { for: "walk-message" }, "Send this. The link opens the walk where it stands now."), area, copy);
      area.focus();
      area.select();
    }

    copy(area) {
      area.select();
      const done = () => (this.parts.live.textContent = "Copied.");
      if (navigator.clipboard) navigator.clipboard.writeText(area.value).then(done, () => document.execCommand("copy"));
      else if (document.execCommand("copy")) done();
    }
  }

  /**
   * A walk for a case: {node, begin()}; `linked` is the query of a link that asked for it, if one did.
   * More: `linkPairs` gives what a link to the walk needs beside its log, `first` is shown before the first check.
   */
  function walk(of, keepAs, linked, more) {
    const kept = known(of, device.read(keepAs, []));
    const given = linked ? fromPairs(linked) : [];
    const made = new Walk(of, keepAs, { linkPairs: () => [], first: null, ...more }, given.length ? given : kept);
    if (given.length) {
      made.before = kept.length ? kept : null;
      device.write(keepAs, made.log);
      made.show();
    }
    return { node: made.parts.node, begin: () => made.begin() };
  }

  handwheel.walk = { walk, fromHash };
})();
