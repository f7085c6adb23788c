/* The planner's page: takes what is chosen, keeps it in the address, shows the plan. */
(function () {
  "use strict";
  const { minutes, whenGiven, load } = handwheel;
  const { empty, fromHash, toHash, known, toggled, remedies } = handwheel.picks;

  const find = (id) => document.getElementById(id);
  const [machine, words, offers, chosen, live, sheet, print] =
    ["plan-family", "plan-find", "plan-offers", "plan-chosen", "plan-live", "plan-sheet", "plan-print"].map(find);
  const alike = JSON.parse(words.dataset.alike); // lists of names for one thing
  let family = null;
  let picks = empty();

  const count = (chosen) => Object.values(chosen).flat().length;

  function toggle(kind, id) {
    picks = toggled(picks, kind, id);
    find("plan-lost").hidden = true;
    history.replaceState(null, "", toHash(family.id, picks));
    showTicks();
    handwheel.afterPaint(showPlan);
  }

  function showTicks() {
    offers.querySelectorAll("input").forEach((input) => (input.checked = picks[input.dataset.kind].includes(input.dataset.id)));
    chosen.replaceChildren(...handwheel.offers.chosen(family, picks, toggle));
  }

  function showPlan() {
    print.hidden = sheet.hidden = !count(picks);
    if (!count(picks)) {
      live.textContent = "Nothing is chosen yet.";
      sheet.replaceChildren();
      return;
    }
    const plan = handwheel.job.plan(family, remedies(family, picks));
    const quote = handwheel.job.quote(family, plan);
    sheet.className = `hw-job hw-plan-sheet ${handwheel.planSheet.longOf(plan)}`.trim();
    sheet.replaceChildren(...handwheel.planSheet.sheet(family, plan, quote, (part) => toggle("renew", part)));
    live.textContent = `${minutes(plan.minutes)}${quote ? `, ${handwheel.planMoney.money(quote.total, family.shop)}` : ""}.`;
  }

  function open(data, wanted) {
    family = data;
    picks = known(family, wanted);
    find("plan-lost").hidden = count(picks) === count(wanted);
    offers.replaceChildren(...handwheel.offers.groups(family, picks, toggle));
    narrow();
    showTicks();
    showPlan();
  }

  function narrow() {
    find("plan-none").hidden = handwheel.offers.narrow([...offers.children], words.value, alike);
  }

  function choose(id, wanted) {
    machine.value = id;
    whenGiven(`jobs:${id}`, (data) => machine.value === id && open(data, wanted));
    load(`assets/handwheel/data/jobs-${id}.js`);
  }

  function start() {
    const asked = fromHash(location.hash);
    const there = [...machine.options].some((option) => option.value === asked.family);
    choose(there ? asked.family : machine.value, there ? asked.picks : empty());
  }

  machine.addEventListener("change", () => {
    history.replaceState(null, "", toHash(machine.value, empty()));
    choose(machine.value, empty());
  });
  words.addEventListener("input", narrow);
  print.addEventListener("click", () => window.print());
  window.addEventListener("hashchange", () => fromHash(location.hash).family && start());
  start();
})();
