/* A line of stitches with a rule beside it, in true millimetres. */
(function () {
  "use strict";
  const { node, text, path } = handwheel.drawings;

  const LONG_MM = 76.2; // three inches
  const [GAP, WIDEST_GAP_MM] = [0.25, 0.7]; // share of a stitch that goes under between two needle holes

  const ticks = (step, high, y) =>
    Array.from({ length: Math.floor(LONG_MM / step + 1e-6) + 1 }, (_, n) => `M${(n * step).toFixed(2)} ${y}v${high(n)}`).join("");

  function row(length) {
    const gap = Math.min(WIDEST_GAP_MM, GAP * length);
    const count = Math.floor(LONG_MM / length + 1e-6);
    return Array.from({ length: count }, (_, n) => `M${(n * length + gap / 2).toFixed(2)} 4h${(length - gap).toFixed(2)}`).join("");
  }

  /** The drawing of a stitch length in mm. */
  function stitches(length) {
    const says = `Stitches of ${handwheel.numbers.places(length, 2)} mm over three inches, with centimetres below and inches above.`;
    return node(
      "svg",
      { class: "hw-stitches", viewBox: "-1 -6 79 21", width: "79mm", height: "21mm", role: "img", "aria-label": says },
      path("rule", ticks(25.4 / 4, (n) => (n % 4 ? -1.5 : -3), 1)),
      path("seam", row(length)),
      path("rule", ticks(1, (n) => (n % 10 ? 1.5 : 3), 7)),
      [0, 1, 2].map((inch) => text(25.4 * inch + 1, -2.4, inch ? String(inch) : "in")),
      [1, 2, 3, 4, 5, 6, 7].map((cm) => text(10 * cm + 0.5, 13, String(cm))),
      text(0.5, 13, "cm")
    );
  }

  handwheel.drawings.stitches = stitches;
})();
