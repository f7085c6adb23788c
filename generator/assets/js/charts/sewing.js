/* The reckoners for stitch, needle, thread and belt. */
(function () {
  "use strict";
  const { el, reckoner, reckon } = handwheel;
  const { INCH_MM, Refused, both, places } = handwheel.numbers;
  const { answer, line } = handwheel.said;

  const [SHORTEST, LONGEST] = [0.2, 26];
  const LENGTH_FROM = { mm: (v) => v, spi: reckon.stitch_length, spcm: (v) => 10 / v };

  function lengthOf(fields) {
    if (fields.blank("stitch")) return null;
    const length = LENGTH_FROM[fields.text("system")](fields.number("stitch"));
    if (length >= SHORTEST && length <= LONGEST) return length;
    throw new Refused(`That is a stitch of ${places(length, 3)} mm: no machine sews it. Look at the unit.`, "stitch");
  }

  function stitchNodes(fields) {
    const length = lengthOf(fields);
    if (length === null) return null;
    return [
      answer(`${places(length, 2)} mm`, el("small", {}, ` ${(length / INCH_MM).toFixed(3)} in`)),
      line(`${places(reckon.stitches_per_inch(length), 2)} stitches to the inch, ${places(reckon.stitches_per_cm(length), 2)} to the centimetre.`),
    ];
  }

  function needleNodes(fields) {
    if (fields.blank("needle")) return null;
    const [metric, american] = fields.of("needle", () => reckon.needle_pair(fields.text("needle"), fields.text("system")));
    return [
      answer(`${metric}/${american}`),
      line(`Blade ${both(reckon.blade_mm(metric))} by its number; a blade measures some 0.02 mm over it (JIS B 9012, from four of its sizes).`),
    ];
  }

  const SYSTEMS = [["tex", "tex", "grams in 1,000 m"], ["denier", "denier", "grams in 9,000 m"],
    ["cotton", "cotton count (Ne)", "larger is finer"], ["metric", "metric count (Nm)", "larger is finer"],
    ["ticket", "ticket number, synthetic", "larger is finer; the trade rounds it to its own steps"]];
  const PLIED = /^(\d+)\s*\/\s*([2-9])$/;
  const figure = (value) => String(Number(value.toPrecision(4)));

  /** How a label's size and plies were read, and what they are if the size is a ticket number. */
  function readAs(size, plies, given) {
    const whole = figure(reckon.whole_thread(size, plies, given));
    const [, name] = SYSTEMS.find(([system]) => system === given);
    const same = Number(whole) === size;
    const read = same ? `${size} for the whole thread, of ${plies} plies` : `${plies} plies of ${size} each: ${whole} for the whole thread`;
    const ticket = figure(reckon.thread_size(size, "ticket", "tex"));
    return [line(`Read as ${name}, ${read}.`), given !== "ticket" && line(`If ${size} is a ticket number, the thread is ${ticket} tex.`)].filter(Boolean);
  }

  function threadNodes(fields) {
    if (fields.blank("size")) return null;
    const given = fields.text("system");
    const label = PLIED.exec(fields.text("size"));
    const [size, plies] = label ? label.slice(1).map(Number) : [fields.number("size"), 0];
    const value = plies ? fields.of("size", () => reckon.whole_thread(size, plies, given)) : size;
    const sizes = el("dl", { class: "hw-dl" }, SYSTEMS.flatMap(([wanted, name, note]) => [
      el("dt", {}, name), el("dd", {}, el("b", {}, figure(reckon.thread_size(value, given, wanted))), el("small", {}, ` ${note}`)),
    ]));
    return [...(plies ? readAs(size, plies, given) : []), sizes];
  }

  function toothNodes(fields) {
    if (fields.blank("teeth")) return null;
    const teeth = fields.number("teeth");
    if (!Number.isInteger(teeth)) throw new Refused("A pulley has a whole number of teeth: count them again.", "teeth");
    return [
      answer(`${places(reckon.belt_tooth_degrees(teeth), 2)}° for each tooth`),
      line("So far that pulley is out of time if its belt stands one tooth wrong."),
    ];
  }

  function vBeltNodes(fields) {
    if (fields.blank("span")) return null;
    const span = fields.length("span", "unit");
    return [
      answer(`${both(reckon.v_belt_deflection(span))} at mid-span`),
      line("Under a light push of a thumb: span / 64, as plant maintenance handbooks give it. For a toothed belt follow the machine's own service data."),
    ];
  }

  handwheel.whenGiven("reckoners", () => {
    reckoner("stitch", stitchNodes, (fields) => {
      const length = lengthOf(fields);
      return length === null ? null : handwheel.drawings.stitches(length);
    });
    reckoner("needle", needleNodes);
    reckoner("thread-size", threadNodes);
    reckoner("tooth", toothNodes);
    reckoner("v-belt", vBeltNodes);
  });
})();
