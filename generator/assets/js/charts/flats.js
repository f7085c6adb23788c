/* The flat under a set screw, and how far to back off: the same as generator/analysis/fasteners/flats.py. */
(function () {
  "use strict";
  const { Refused, positive, short } = handwheel.numbers;

  const HAIR = 1e-9;
  const NUMBERS = "no one two three four five six seven eight nine ten eleven twelve".split(" ");
  let margin_mm = 0; // beyond the round of the shaft, for the burr round a cup point's seat
  const QUARTERS = ["", "a quarter", "a half", "three quarters"];

  handwheel.whenGiven("reckoners", (data) => (margin_mm = data.margin));

  function flat_depth(diameter, width) {
    positive(diameter, "The diameter");
    positive(width, "The width");
    if (width > diameter) {
      throw new Refused(`A flat ${short(width)} wide does not go on a shaft ${short(diameter)} thick: measure both again.`, "flat");
    }
    return (diameter - Math.sqrt(diameter ** 2 - width ** 2)) / 2;
  }

  function flat_width(diameter, depth) {
    positive(diameter, "The diameter");
    positive(depth, "The depth");
    if (depth > diameter / 2) {
      throw new Refused(`A flat ${short(depth)} deep goes past the middle of a shaft ${short(diameter)} thick: measure both again.`);
    }
    return 2 * Math.sqrt(depth * (diameter - depth));
  }

  function turns_to_clear(depth, pitch, margin = margin_mm) {
    positive(pitch, "The pitch");
    if (depth < 0 || margin < 0) throw new Refused("A depth and a margin are zero or more.");
    return (depth + margin) / pitch;
  }

  const whole_quarters = (turns) => Math.ceil(turns * 4 - HAIR) / 4;
  const safe_turns = (turns) => Math.max(2, Math.floor(whole_quarters(turns)) + 1);
  const number = (whole) => NUMBERS[whole] || String(whole);

  function advice(turns) {
    const [clear, give] = [whole_quarters(turns), safe_turns(turns)].map(turns_in_words);
    return `Clear of the flat after ${clear}. Give it ${give}, or take it right out if in doubt.`;
  }

  function turns_in_words(turns) {
    const counted = Math.round(turns * 4);
    const whole = Math.floor(counted / 4);
    const quarters = counted % 4;
    if (!whole && quarters) return ["a quarter of a turn", "half a turn", "three quarters of a turn"][quarters - 1];
    const said = number(whole) + (quarters ? ` and ${QUARTERS[quarters]}` : "");
    return `${said} ${turns === 1 ? "turn" : "turns"}`;
  }

  Object.assign(handwheel.reckon, {
    margin_mm: () => margin_mm, flat_depth, flat_width, turns_to_clear, whole_quarters, safe_turns, advice, turns_in_words,
  });
})();
