/* Threads as people write them, as generator/standards/notation.py reads them, and what an unknown
   screw is, held to tests/vectors/identify.py. A thread is {name, diameter, pitch, series, source}, lengths in mm. */
(function () {
  "use strict";
  const { INCH_MM, Refused, parse_number, short, quoted } = handwheel.numbers;

  const DECIMAL = "\\d+(?:[.,]\\d+)?|[.,]\\d+";
  const BETWEEN = "\\s*[-x×*]\\s*";
  const SIZE = '(?:#|No\\.?\\s*)?(\\d{1,2})|((?:\\d+[ -])?\\d+/[1-9]\\d*)\\s*(?:"|″|in)?';
  const METRIC = new RegExp(`^M\\s*(${DECIMAL})(?:${BETWEEN}(${DECIMAL})\\s*(?:mm)?)?$`, "i");
  const INCH = new RegExp(`^(?:${SIZE})${BETWEEN}(\\d{1,3})\\s*(?:tpi)?\\s*(UNC|UNF|UNS)?(?:\\s*-?\\s*[123][AB])?$`, "i");
  const ALONE = new RegExp(`^(?:${SIZE})\\s*(?:UNC|UNF)?$`, "i");
  const EXAMPLES = "'10-32', '1/4-20', '11/64-40', 'M4' or 'M4x0.5'";
  const [LARGEST_NUMBER, FINEST_MM, THICKEST_MM] = [30, 0.05, 100];
  const [WEAR_MM, OVER_MM, PITCH_SHARE] = [0.05, 0.02, 0.025]; // allowances for a used screw and a hand's reading
  let listed = [];
  let coarse = [];
  let unified = {};

  handwheel.whenGiven("reckoners", (data) => ({ threads: listed, coarse, unified } = data));

  /** Reads a thread; refused with what to write instead. */
  function parse_thread(text) {
    const given = text.trim();
    const metric = METRIC.exec(given);
    if (metric) return sane(metricThread(given, metric[1], metric[2]), given);
    const inch = INCH.exec(given);
    if (inch) return sane(inchThread(given, ...inch.slice(1)), given);
    throw new Refused(complaint(given));
  }

  function metricThread(given, diameterText, pitchText) {
    const diameter = parse_number(diameterText);
    const usual = coarse.find(([d]) => d === diameter);
    if (!pitchText && !usual) throw new Refused(noCoarse(given, diameter));
    const pitch = pitchText ? parse_number(pitchText) : usual[1];
    return known(`M${diameter}${usual && usual[1] === pitch ? "" : `x${pitch}`}`, diameter, pitch);
  }

  function noCoarse(given, diameter) {
    const apart = ([d]) => Math.abs(d - diameter);
    const [near, pitch] = [...coarse].sort((a, b) => apart(a) - apart(b) || a[0] - b[0])[0];
    return `thread ${quoted(given)} has no coarse pitch in the table: write the pitch too, as in 'M${diameter}x${pitch}', or did you mean 'M${near}'?`;
  }

  function known(name, diameter, pitch) {
    return listed.find((thread) => thread.name === name) || { name, diameter, pitch, series: "unknown", source: "" };
  }

  function inchThread(given, number, fraction, perInch, form) {
    const turns = Number(perInch);
    if (!turns) throw new Refused(`thread ${quoted(given)} has no turns to the inch: write it like ${EXAMPLES}.`);
    const size = number ? numberSize(given, number) : fractionSize(fraction);
    checkForm(given, size, turns, (form || "").toUpperCase());
    const inches = number ? (60 + 13 * Number(number)) / 1000 : parse_number(fraction);
    return known(`${size}-${turns}`, INCH_MM * inches, INCH_MM / turns);
  }

  function numberSize(given, number) {
    if (Number(number) <= LARGEST_NUMBER) return String(Number(number));
    throw new Refused(`thread ${quoted(given)}: number sizes end at ${LARGEST_NUMBER}; write it like ${EXAMPLES}.`);
  }

  /** In lowest terms, mixed; a whole inch keeps a denominator, or it would read as a number size. */
  function fractionSize(text) {
    const [, whole, over, under] = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/.exec(text).map((part) => Number(part));
    const top = (whole || 0) * under + over;
    const common = divisor(top, under);
    const [numerator, denominator] = [top / common, under / common];
    if (denominator === 1) return `${numerator}/1`;
    const inches = Math.floor(numerator / denominator);
    return `${inches ? `${inches} ` : ""}${numerator % denominator}/${denominator}`;
  }

  const divisor = (a, b) => (b ? divisor(b, a % b) : a);

  /** UNC or UNF written after a pitch of the other form is a slip worth stopping at. */
  function checkForm(given, size, perInch, form) {
    if (form !== "UNC" && form !== "UNF") return;
    const wanted = (unified[size] || [null, null])[form === "UNC" ? 0 : 1];
    if (wanted === perInch) return;
    const mend = wanted ? `the ${form} thread of that size is '${size}-${wanted}'` : `that size has no ${form} thread`;
    throw new Refused(`thread ${quoted(given)} is not ${form}: ${mend}.`);
  }

  function sane(thread, given) {
    const { diameter, pitch } = thread;
    if (pitch >= FINEST_MM && pitch < diameter && diameter <= THICKEST_MM) return thread;
    const three = (value) => String(Number(value.toPrecision(3)));
    throw new Refused(
      `thread ${quoted(given)} cannot be right: it would be ${three(diameter)} mm thick with a pitch of ` +
        `${three(pitch)} mm. A pitch is at least ${FINEST_MM} mm and less than the diameter, ` +
        `a screw at most ${THICKEST_MM} mm thick.`
    );
  }

  function complaint(given) {
    const slash = /^#?(\d{1,2})\s*\/\s*(\d{2})$/.exec(given);
    if (slash && listed.some((thread) => thread.name === `${slash[1]}-${slash[2]}`)) {
      return `thread ${quoted(given)} reads as a fraction: for size ${slash[1]}, ${slash[2]} to the inch, write '${slash[1]}-${slash[2]}'.`;
    }
    const alone = ALONE.exec(given);
    if (alone) return withoutPitch(given, alone[1] || fractionSize(alone[2]));
    return `${quoted(given)} is no thread: write it like ${EXAMPLES}.`;
  }

  function withoutPitch(given, size) {
    const names = listed.map((thread) => thread.name).filter((name) => name.replace(/-[^-]*$/, "") === size && name.includes("-"));
    const mend = names.length ? `write ${names.map(quoted).join(" or ")}` : `write it like ${EXAMPLES}`;
    return `thread ${quoted(given)} gives no turns to the inch: ${mend}.`;
  }

  /** How far under nominal the crest of a used screw may measure, mm: ISO 965-1, 6g, and wear. */
  function under_size(pitch) {
    return (15 + 11 * pitch + 180 * pitch ** (2 / 3) - 3.15 / Math.sqrt(pitch)) / 1000 + WEAR_MM;
  }

  /** The listed threads nearest to a measured screw, best first. */
  function identify(diameter, pitch, count = 5) {
    if (!(pitch > 0 && pitch < diameter && diameter < Infinity)) {
      throw new Refused(
        `No screw measures ${short(diameter)} mm with a pitch of ${short(pitch)} mm: ` +
          "the pitch is more than zero and less than the diameter.",
        "pitch"
      );
    }
    const found = listed.map((thread) => candidate(thread, diameter, pitch));
    const off = (c) => Math.abs(c.diameter_error_mm);
    return found.sort((a, b) => a.misfit - b.misfit || off(a) - off(b) || (a.thread.name < b.thread.name ? -1 : 1)).slice(0, count);
  }

  function candidate(thread, diameter, pitch) {
    const under = under_size(thread.pitch);
    const diameter_error_mm = diameter - thread.diameter;
    const pitch_error_mm = pitch - thread.pitch;
    const across = Math.abs(diameter_error_mm - (OVER_MM - under) / 2) / ((under + OVER_MM) / 2);
    const misfit = Math.max(across, Math.abs(pitch_error_mm) / (PITCH_SHARE * thread.pitch));
    return { thread, diameter_error_mm, pitch_error_mm, allowance_mm: under, misfit, fits: misfit <= 1 };
  }

  Object.assign(handwheel.reckon, { parse_thread, identify, under_size });
})();
