/* Stitch length, needle sizes, thread sizes, belts. Stitch length and belt teeth by the same formulas as
   generator/analysis/reckon.py; all are held to tests/vectors/reckoners.json. */
(function () {
  "use strict";
  const { INCH_MM, Refused, positive, short } = handwheel.numbers;

  const PER_TEX = { tex: 1, denier: 9 };
  const OVER_TEX = { cotton: 590.5, metric: 1000, ticket: 3000 };
  let needles = [];

  handwheel.whenGiven("reckoners", (data) => (needles = data.needles));

  const stitch_length = (spi) => INCH_MM / positive(spi, "Stitches per inch");
  const stitches_per_inch = (mm) => INCH_MM / positive(mm, "The stitch length");
  const stitches_per_cm = (mm) => 10 / positive(mm, "The stitch length");
  const blade_mm = (metric) => positive(metric, "A needle number") / 100;
  const belt_tooth_degrees = (teeth) => 360 / positive(teeth, "The number of teeth");
  const v_belt_deflection = (span) => positive(span, "The span") / 64;

  const metric_needle = (american) => paired(american, "american", "metric", ["older American", "metric"]);
  const american_needle = (metric) => paired(metric, "metric", "american", ["metric", "older American"]);

  /** The other number of a needle in the table; refused with its reading in the other system, or the nearest. */
  function paired(size, given, wanted, [name, other]) {
    const found = needles.find((needle) => needle[given] === size);
    if (found) return found[wanted];
    const twin = needles.find((needle) => needle[wanted] === size);
    if (twin) throw new Refused(`${short(size)} is no ${name} needle size: as the ${other} one it is ${twin.metric}/${twin.american}.`);
    const apart = (needle) => Math.abs(needle[given] - size);
    const near = [...needles].sort((a, b) => apart(a) - apart(b) || a[given] - b[given])[0][given];
    throw new Refused(`${short(size)} is no ${name} needle size in the table: the nearest is ${near}.`);
  }

  /** Both numbers of a needle, from one of them or from both: 80/12 or 12/80. */
  function needle_pair(text, given) {
    const written = /^(\d{1,3})(?:\s*[/-]\s*(\d{1,3}))?$/.exec(text.trim());
    if (!written) throw new Refused("Write a needle number, such as 80, 12 or 80/12.");
    const numbers = written.slice(1).filter(Boolean).map(Number);
    if (numbers.length === 1) {
      const metric = given === "metric" ? numbers[0] : metric_needle(numbers[0]);
      return [metric, american_needle(metric)];
    }
    const [metric, american] = [Math.max(...numbers), Math.min(...numbers)];
    const wanted = american_needle(metric);
    if (wanted !== american) throw new Refused(`${metric} goes with ${wanted}, not with ${american}: read the packet again.`);
    return [metric, american];
  }

  /** The size of the whole thread where a label gives size and plies. */
  function whole_thread(size, plies, given) {
    positive(size, "A thread size");
    positive(plies, "The number of plies");
    if (given === "cotton" || given === "metric") return size / plies;
    return given === "denier" ? size * plies : size;
  }

  /** In the counts (cotton, metric) a larger number is a finer thread. */
  function thread_size(value, given, wanted) {
    positive(value, "A thread size");
    const tex = given in PER_TEX ? value / PER_TEX[given] : OVER_TEX[given] / value;
    return wanted in PER_TEX ? tex * PER_TEX[wanted] : OVER_TEX[wanted] / tex;
  }

  Object.assign(handwheel.reckon, {
    stitch_length, stitches_per_inch, stitches_per_cm, blade_mm, metric_needle, american_needle, needle_pair,
    thread_size, whole_thread, belt_tooth_degrees, v_belt_deflection,
  });
})();
