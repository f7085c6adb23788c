/* The practice page: a machine is taken in, worked on and scored; its number stands in the address. */
(function () {
  "use strict";
  const { el, minutes, withFamily, whenGiven, load } = handwheel;

  const HIGHEST = 99999;
  const find = (id) => document.getElementById(`practice-${id}`);
  const [choice, number, bench, live, kind] = ["family", "number", "bench", "live", "kind"].map(find);
  let machine = null;
  let log = [];

  /** {family, number} of an address such as #family/42; null where it names no machine. */
  function fromHash(hash) {
    const [family, digits] = hash.slice(1).split("/");
    const there = [...choice.options].some((option) => option.value === family);
    return there && /^\d{1,5}$/.test(digits || "") ? { family, number: Number(digits) } : null;
  }

  function take(way, id) {
    log = [...log, handwheel.practice[way](machine, id)];
    const so = handwheel.journey.soFar(machine.of, log);
    if (so.cured) return finish(so);
    show(so);
    bench.querySelector("h3").focus();
    return undefined;
  }

  function head() {
    return [el("h3", { tabindex: "-1" }, `“${machine.said}”`), el("p", {}, `${machine.of.family.title}, machine number ${machine.number}: ${machine.of.symptom.title}`)];
  }

  function show(so) {
    const { checks, remedies, told, cautions } = handwheel.practiceCaseView;
    const open = new Set(so.open);
    const last = log[log.length - 1];
    live.textContent = last ? `${minutes(so.spent)} so far.` : "The machine is on the bench.";
    bench.replaceChildren(
      ...head(),
      el("p", { class: "hw-practice-spent" }, el("b", {}, minutes(so.spent)), " so far"),
      el("ol", {}, ...log.map((entry) => el("li", {}, ...told(machine.of, entry)))),
      el("h4", {}, "At a real machine, before any of this"),
      ...cautions(machine.of),
      el("h4", {}, "Check"),
      el("div", { class: "hw-choices", "data-does": "check" }, ...checks(machine.of, log, open, take)),
      el("h4", {}, "Or put it right"),
      el("div", { class: "hw-choices", "data-does": "remedy" }, ...remedies(machine.of, log, open, take))
    );
  }

  function finish({ spent, unproved }) {
    const { of, fault } = machine;
    const planned = handwheel.practice.plannedMinutes(machine);
    const fits = { family: of.family.title, number: machine.number, symptom: of.symptom.title };
    handwheel.practiceScores.add({ ...fits, fault: handwheel.walkWords.causeName(of.family, fault), spent, planned });
    handwheel.practiceScores.show(find("scores"));
    live.textContent = `Done in ${minutes(spent)}.`;
    load(`assets/handwheel/data/practice-${of.family.id}.js`);
    whenGiven(`practice:${of.family.id}`, (paths) => {
      bench.replaceChildren(...head(), ...handwheel.practiceResult(machine, log, { spent, unproved }, paths));
      bench.querySelectorAll("h3")[1].focus();
    });
  }

  function bringIn(family, wanted) {
    choice.value = family;
    number.value = String(wanted);
    withFamily(family, (data) => {
      machine = handwheel.practice.bringIn(data, wanted);
      log = [];
      show(handwheel.journey.soFar(machine.of, log));
    });
  }

  function cards() {
    handwheel.practiceCards.show(find("cards"), kind.value, Number(number.value) || 1);
  }

  function ask(wanted) {
    const hash = `#${choice.value}/${Math.min(HIGHEST, Math.max(0, Math.floor(wanted) || 0))}`;
    if (location.hash === hash) follow();
    else location.hash = hash;
  }

  function follow() {
    const asked = fromHash(location.hash);
    if (asked) bringIn(asked.family, asked.number);
    cards();
  }

  find("form").addEventListener("submit", (event) => {
    event.preventDefault();
    ask(Number(number.value));
  });
  find("another").addEventListener("click", () => ask(1 + Math.random() * HIGHEST));
  kind.addEventListener("change", cards);
  window.addEventListener("hashchange", follow);
  handwheel.practiceScores.show(find("scores"));
  follow();
})();
