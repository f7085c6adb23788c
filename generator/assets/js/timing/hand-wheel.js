/* The hand wheel of a timing sheet: a slider that moves needle and point. What it shows at each degree was worked out before. */
(function () {
  "use strict";

  const NEAR = 0.05; // mm of path within which the point stands at the needle

  const numbers = (text) => text.split(" ").map(Number);

  function where(past) {
    if (Math.abs(past) < NEAR) return "at the needle";
    return `${Math.abs(past).toFixed(1)} mm ${past > 0 ? "past" : "before"} the needle`;
  }

  function started(wheel) {
    const { from, scale, set } = wheel.dataset;
    const [rises, past, above] = ["rises", "past", "above"].map((name) => numbers(wheel.dataset[name]));
    const [needle, point] = ["needle", "point"].map((name) => wheel.querySelector(`[data-moves="${name}"]`));
    const slider = wheel.querySelector("input");
    const said = wheel.querySelector("output");

    function turn() {
      const at = Number(slider.value) - Number(from);
      needle.setAttribute("transform", `translate(0 ${((Number(set) - rises[at]) * Number(scale)).toFixed(1)})`);
      point.setAttribute("transform", `translate(${(-past[at] * Number(scale)).toFixed(1)} 0)`);
      const eye = `${Math.abs(above[at]).toFixed(2)} mm ${above[at] < 0 ? "below" : "above"} the eye`;
      said.textContent = `${slider.value}°: bar risen ${rises[at].toFixed(2)} mm, point ${where(past[at])}, ${eye}.`;
    }

    slider.addEventListener("input", turn);
    turn();
    wheel.hidden = false;
  }

  document.querySelectorAll(".hw-wheel").forEach(started);
})();
