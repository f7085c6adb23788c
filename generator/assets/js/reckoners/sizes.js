/* Stitch length, needle sizes, thread sizes, belts: the same formulas as generator/analysis/reckon.py. */
(function () {
  "use strict";
  const { INCH_MM, Refused, positive, short } = handwheel.numbers;

  const PER_TEX = { tex: 1, denier: 9 };
  const OVER_TEX = { cotton: 590.5, metric: 1000 };
  let needles = [];

  handwheel.whenGiven("reckoners", (data) => (needles = data.needles));

  const stitch_length = (spi) => INCH_MM / positive(spi, "Stitches per inch");
  const stitches_per_inch = (mm) => INCH_MM / positive(mm, "The stitch length");
  const stitches_per_cm = (mm) => 10 / positive(mm, "The stitch length");
  const blade_mm = (metric) => positive(metric, "A needle number") / 100;
  const belt_tooth_degrees = (teeth) => 360 / positive(teeth, "The number of teeth");
  const v_belt_deflection = (span) => positive(span, "The span") / 64;

  const metric_needle = (american) => paired(american, "american", "metric", "older American");
  const american_needle = (metric) => paired(metric, "metric", "american", "metric");

  /** The other number of a needle in the table; refused with the nearest that is there. */
  function paired(size, given, wanted, name) {
    const found = needles.find((needle) => needle[given] === size);
    if (found) return found[wanted];
    const apart = (needle) => Math.abs(needle[given] - size);
    const near = [...needles].sort((a, b) => apart(a) - apart(b) || a[given] - b[given])[0][given];
    throw new Refused(`${short(size)} is no ${name} needle size in the table: the nearest is ${near}.`);
  }

  /** In the counts (cotton, metric) a larger number is a finer thread. */
  function thread_size(value, given, wanted) {
    positive(value, "A thread size");
    const tex = given in PER_TEX ? value / PER_TEX[given] : OVER_TEX[given] / value;
    return wanted in PER_TEX ? tex * PER_TEX[wanted] : OVER_TEX[wanted] / tex;
  }

  Object.assign(handwheel.reckon, {
    stitch_length, stitches_per_inch, stitches_per_cm, blade_mm, metric_needle, american_needle,
    thread_size, belt_tooth_degrees, v_belt_deflection,
  });
})();
