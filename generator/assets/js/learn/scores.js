/* The score sheet; it stays on the device. */
(function () {
  "use strict";
  const { el, device, minutes } = handwheel;

  const KEEP_AS = "practice.scores";
  const KEPT = 100; // jobs; the oldest go first

  function all() {
    const kept = device.read(KEEP_AS, []);
    return Array.isArray(kept) ? kept : [];
  }

  /** Adds {family, number, symptom, fault, spent, planned}; titles and minutes. */
  function add(score) {
    device.write(KEEP_AS, [...all(), score].slice(-KEPT));
  }

  function row(score) {
    const words = [score.family, score.number, score.symptom, score.fault].map((text) => el("td", {}, String(text)));
    const figures = [score.spent, score.planned].map((value) => el("td", {}, minutes(Number(value))));
    return el("tr", {}, ...words, ...figures);
  }

  function show(place) {
    const scores = all();
    if (!scores.length) return place.replaceChildren(el("p", {}, "No job is on the sheet yet."));
    const heads = ["Machine", "Number", "Complaint", "It was", "You", "Book"].map((head) => el("th", { scope: "col" }, head));
    const table = el("table", { class: "hw-table" }, el("thead", {}, el("tr", {}, ...heads)), el("tbody", {}, ...scores.map(row)));
    const forget = () => (device.forget(KEEP_AS), show(place));
    const button = el("button", { type: "button", class: "hw-plain", onclick: forget }, "Forget the sheet");
    return place.replaceChildren(el("div", { class: "hw-practice-wide", tabindex: "0", role: "region", "aria-label": "Score sheet" }, table), button);
  }

  handwheel.practiceScores = { add, show };
})();
