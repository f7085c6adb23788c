/* Short cards of the records: parts, signs, and which setting comes first. */
(function () {
  "use strict";
  const { el, whenGiven } = handwheel;
  const { chance, shuffled } = handwheel.chance;

  const CHOICES = 4;

  /** Each card: {ask, home, answer, choices}; a card without choices is turned over. */
  function partCards(data) {
    return data.parts.map(([title, what, home]) => ({ ask: `What is this: ${title}?`, home, answer: what, choices: [] }));
  }

  /** The other choices do not have this very sign. */
  function signCards(data, next) {
    return data.signs.map(([sign, mode]) => {
      const same = new Set(data.signs.filter(([s]) => s === sign).map(([, m]) => m));
      const others = shuffled(next, Object.keys(data.modes).filter((m) => !same.has(m))).slice(0, CHOICES - 1);
      const choices = shuffled(next, [mode, ...others]).map((m) => data.modes[m]);
      return { ask: `What does this mean: ${sign}`, home: "", answer: data.modes[mode], choices };
    });
  }

  function settingCards(data, next) {
    return data.settings.map(([first, second, home]) => ({
      ask: "Which setting comes first?", home, answer: first, choices: shuffled(next, [first, second]),
    }));
  }

  const KINDS = { parts: partCards, signs: signCards, settings: settingCards };

  /** All cards of a kind in the order that a number gives. */
  function deck(data, kind, number) {
    const next = chance(`cards/${kind}/${number}`);
    return shuffled(next, KINDS[kind](data, next));
  }

  function answerButtons(card, said) {
    const tell = (choice) => () => {
      said.textContent = choice === null ? card.answer : `${choice === card.answer ? "Right" : "No"}: ${card.answer}.`;
    };
    const button = (text, choice) => el("button", { type: "button", class: "hw-choice", onclick: tell(choice) }, text);
    return card.choices.length ? card.choices.map((c) => button(c, c)) : [button("Turn it over", null)];
  }

  /** Shows card after card in `place`. */
  function deal(place, cards, at = 0) {
    if (!cards.length) return place.replaceChildren(el("p", {}, "The records have no such cards yet."));
    const card = cards[at % cards.length];
    const said = el("p", { class: "hw-found", role: "status", "aria-live": "polite" });
    const head = el("h3", { tabindex: "-1" }, card.ask);
    const next = el("button", { type: "button", class: "hw-plain", onclick: () => (deal(place, cards, at + 1), place.querySelector("h3").focus()) }, "Next card");
    const count = `${(at % cards.length) + 1} of ${cards.length}${card.home ? `, ${card.home}` : ""}`;
    return place.replaceChildren(head, el("p", { class: "hw-rests" }, count), el("div", { class: "hw-choices" }, ...answerButtons(card, said)), said, next);
  }

  function show(place, kind, number) {
    whenGiven("cards", (data) => deal(place, deck(data, kind, number)));
  }

  handwheel.practiceCards = { deck, show };
})();
