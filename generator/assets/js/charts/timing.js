/* Sums of timing, feed and gears: the same formulas as generator/analysis/timing. */
(function () {
  "use strict";
  const { INCH_MM, Refused } = handwheel.numbers;

  let modules = [];
  let pitches = [];
  handwheel.whenGiven("reckoners", (data) => ({ modules, pitches } = data));

  const degrees = (radians) => (radians * 180) / Math.PI;
  const radians = (angle) => (angle * Math.PI) / 180;

  /** Degrees of a shaft that play is, felt at a radius. */
  const play_degrees = (play, radius) => degrees(play / radius);

  /** Turns of the motor in a minute at so many stitches in a minute; pulleys by diameter or by teeth. */
  const motor_speed = (stitches, wheel, motor) => (stitches * wheel) / motor;

  /** Stitch length from the length of ten stitches. */
  const from_ten = (length) => length / 10;

  /** What one goes for what the other goes, in as many stitches. */
  function differential(front, rear) {
    if (!(rear > 0)) throw new Refused("The rear dog must go more than nothing: look at the length again.");
    return front / rear;
  }

  /** Outside diameter in mm of a full-depth gear; `helix` in degrees. */
  const outside_diameter = (module, teeth, helix) => module * (teeth / Math.cos(radians(helix)) + 2);

  /** The gears nearest to a measured outside diameter in mm, best first. */
  function gear_candidates(outside, teeth, helix, shown = 4) {
    const sizes = [
      ...modules.map((size) => ({ system: "module", size, module: size })),
      ...pitches.map((size) => ({ system: "diametral pitch", size, module: INCH_MM / size })),
    ];
    const found = sizes.map((gear) => ({ ...gear, error: outside - outside_diameter(gear.module, teeth, helix) }));
    return found.sort((a, b) => Math.abs(a.error) - Math.abs(b.error)).slice(0, shown);
  }

  Object.assign(handwheel.reckon, { play_degrees, motor_speed, from_ten, differential, outside_diameter, gear_candidates });
})();
