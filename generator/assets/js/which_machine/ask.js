/* One question of the key at a time, with the way back. */
(function () {
  "use strict";

  const { el } = handwheel;
  const MOST_DIFFERENCES = 5;

  handwheel.whenGiven("which-machine", (data) => {
    const place = document.getElementById("which-machine");
    if (!place) return;
    const key = handwheel.familyKey(data);
    const before = [];
    let now = key.start();

    function go(next) {
      before.push(now);
      now = next;
      show(true);
    }

    function back() {
      now = before.pop();
      show(true);
    }

    function button(text, act, quiet) {
      return el("button", { type: "button", class: quiet ? "hw-quiet" : "hw-answer", onclick: act }, text);
    }

    function said() {
      const items = now.said.map(([asked, answer]) => el("li", {}, `${asked.ask} `, el("b", {}, answer)));
      return items.length ? el("ol", { class: "hw-key-said" }, items) : null;
    }

    function asking(question) {
      const answers = key.parted(question, now.left).map(([answer]) =>
        button(question.answers[answer], () => go(key.answer(now, question, answer))));
      const none = question.answers.length > 2 && button("Something else", () => go({ ...now, left: [], near: now.left, at: question, said: [...now.said, [question, "something else"]] }), true);
      return [
        el("p", { class: "hw-rests" }, `Look ${now.said.length + 1}. ${now.left.length} machines left.`),
        el("h2", { tabindex: "-1" }, question.ask),
        el("div", { class: "hw-answers" }, answers),
        el("div", { class: "hw-key-ways" }, none, button("I cannot tell", () => go(key.skip(now, question)), true)),
      ];
    }

    function family(i) {
      const { id, title, recognise, models } = data.families[i];
      const keep = button("Choose it for the finder", (event) => {
        handwheel.device.write("family", id);
        document.dispatchEvent(new Event("handwheel:family"));
        event.target.textContent = "Chosen.";
      }, true);
      return el("li", {},
        el("a", { href: `${handwheel.root()}families/${id}.html` }, title),
        el("p", {}, recognise),
        models.length ? el("small", {}, models.join(", ")) : null, keep);
    }

    function differences(left) {
      const found = key.differences(left).slice(0, MOST_DIFFERENCES);
      const row = ([asked, answers]) => el("li", {}, `${asked.ask} `,
        answers.map((answer, i) => [i ? "; " : "", el("b", {}, data.families[left[i]].title), `: ${answer}`]));
      if (!found.length) return el("p", {}, "No question in the book tells these apart. Compare their pages.");
      return [el("p", {}, "What differs:"), el("ul", {}, found.map(row))];
    }

    function ended() {
      const near = now.left.length ? now.left : now.near;
      const heads = {
        none: "No machine in the book shows that. These come nearest:",
        one: "It is built like this:",
        several: "It is one of these:",
      };
      const head = !now.left.length ? heads.none : near.length === 1 ? heads.one : heads.several;
      return [
        el("h2", { tabindex: "-1" }, head),
        el("ul", { class: "hw-key-found" }, near.map(family)),
        near.length > 1 && differences(near),
      ];
    }

    function show(move) {
      const question = now.left.length ? key.question(now) : null;
      const ways = el("div", { class: "hw-key-ways" },
        before.length ? button("Back", back, true) : null,
        before.length ? button("From the beginning", () => { before.length = 0; now = key.start(); show(true); }, true) : null);
      place.replaceChildren(...[question ? asking(question) : ended(), said(), ways].flat(2).filter(Boolean));
      place.hidden = false;
      if (move) place.querySelector("h2").focus();
    }

    show(false);
  });
})();
