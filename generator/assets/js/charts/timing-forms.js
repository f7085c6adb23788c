/* The reckoners for needle bar, stitches measured on a scrap, gears, play and motor. */
(function () {
  "use strict";
  const { reckoner, reckon } = handwheel;
  const { Refused, both, places } = handwheel.numbers;
  const { answer, line, lines } = handwheel.said;

  const STEP = 0.5; // degrees to either side over which the rise for one degree is taken
  const MOST_SLANT = 60; // degrees; no gear of a machine is cut steeper

  const NEAR = 0.005; // mm; nobody measures a gear nearer

  function whole(fields, name) {
    const teeth = fields.number(name);
    if (!Number.isInteger(teeth)) throw new Refused("A gear has a whole number of teeth: count them again.", name);
    return teeth;
  }

  function riseNodes(fields) {
    if (fields.blank("stroke", "rod", "risen")) return null;
    const [stroke, rod] = [fields.length("stroke", "unit"), fields.length("rod", "unit")];
    const at = fields.of("rod", () => reckon.slider_crank_angle(stroke, rod, 0));
    const angle = fields.of("risen", () => reckon.slider_crank_angle(stroke, rod, fields.length("risen", "unit"))) - at;
    const rate = reckon.slider_crank_rise(stroke, rod, angle + STEP) - reckon.slider_crank_rise(stroke, rod, angle - STEP);
    return [
      answer(`${places(angle, 1)}° after lowest`),
      line(`There one degree of hand wheel is ${places(rate, 3)} mm of rise. Measure the rise; do not judge the wheel by eye.`),
    ];
  }

  function tenNodes(fields) {
    if (fields.blank("ten")) return null;
    const ten = fields.length("ten", "unit");
    const stitch = reckon.from_ten(ten);
    const said = [answer(`${both(stitch)} to a stitch`), line(`${places(reckon.stitches_per_inch(stitch), 2)} stitches to the inch.`)];
    if (fields.blank("other")) return said;
    const other = fields.length("other", "unit");
    const apart = reckon.from_ten(other - ten);
    const ratio = reckon.differential(ten, other);
    const share = places(Math.abs(other - ten) / ten * 100, 1);
    return [...said, lines([
      `The other ten are ${places(Math.abs(apart), 2)} mm to a stitch ${apart < 0 ? "shorter" : "longer"}, ${share} %: so far reverse is from forward.`,
      `First over other: ${places(ratio, 2)}, the differential ratio where the first are the front dog's.`,
    ])];
  }

  function gearNodes(fields) {
    if (fields.blank("outside", "teeth")) return null;
    const slant = fields.blank("slant") ? 0 : handwheel.numbers.parse_number(fields.text("slant"), fields.label("slant"));
    if (slant > MOST_SLANT) throw new Refused(`Teeth do not slant by ${places(slant, 1)}°: measure from the shaft's line.`, "slant");
    const outside = fields.length("outside", "unit");
    const found = reckon.gear_candidates(outside, whole(fields, "teeth"), slant);
    const off = (error) => Math.abs(error) < NEAR ? "to a hundredth" : `measured ${places(Math.abs(error), 2)} mm ${error < 0 ? "small" : "large"}`;
    const said = ({ system, size, error }) => `${system} ${places(size, 2)}: ${off(error)}`;
    return [
      answer(said(found[0])),
      lines(found.slice(1).map(said)),
      line("Full-depth teeth. Worn and moulded ones measure small; the mate and the distance of the shafts decide."),
    ];
  }

  function playNodes(fields) {
    if (fields.blank("play", "radius")) return null;
    const turned = reckon.play_degrees(fields.length("play", "unit"), fields.length("radius", "unit"));
    return [answer(`${places(turned, 2)}° of the shaft`), line("Take it up in the sewing direction before you read a timing.")];
  }

  function speedNodes(fields) {
    if (fields.blank("stitches", "wheel", "motor")) return null;
    const [stitches, wheel, motor] = ["stitches", "wheel", "motor"].map((name) => fields.number(name));
    return [
      answer(`${Math.round(reckon.motor_speed(stitches, wheel, motor))} turns of the motor in a minute`),
      line(`${places(wheel / motor, 2)} turns for one of the hand wheel, less what the belt slips. Pulleys measured unplugged, belt off.`),
    ];
  }

  handwheel.whenGiven("reckoners", () => {
    reckoner("rise", riseNodes);
    reckoner("ten", tenNodes);
    reckoner("gear", gearNodes);
    reckoner("play", playNodes);
    reckoner("speed", speedNodes);
  });
})();
