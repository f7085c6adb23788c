/* Numbers as they are written at the bench, and as they are said. */
(function () {
  "use strict";

  const INCH_MM = 25.4;
  const WHOLE = /^(?:(\d+)[ -])?(\d+)\/([1-9]\d*)$/;
  const DECIMAL = /^(?:\d+(?:[.,]\d+)?|[.,]\d+)$/;

  /** What was given cannot be; the message is a sentence, `field` the name of the field that it is about. */
  class Refused extends Error {
    constructor(sentence, field) {
      super(sentence);
      this.field = field;
    }
  }

  /** The value of 3, 0.7, 0,7, .035, 3/32, 1 1/4 or 1-1/4; refused for anything else. */
  function parse_number(text, name) {
    const given = text.trim();
    const fraction = WHOLE.exec(given);
    if (fraction) return Number(fraction[1] || 0) + Number(fraction[2]) / Number(fraction[3]);
    if (DECIMAL.test(given)) return Number(given.replace(",", "."));
    throw new Refused(`${name}: write a number, such as 8, 0.7 or 5/16.`);
  }

  /** Six digits, as Python's :g. */
  function short(value) {
    return Number.isFinite(value) ? String(Number(value.toPrecision(6))) : value > 0 ? "inf" : "-inf";
  }

  function positive(value, name) {
    if (!(value > 0 && value < Infinity)) throw new Refused(`${name} must be more than zero, not ${short(value)}.`);
    return value;
  }

  /** At most so many places, without trailing zeros. */
  function places(value, count) {
    return String(Number(value.toFixed(count)));
  }

  /** A length in both systems. */
  function both(mm) {
    return `${places(mm, 2)} mm (${(mm / INCH_MM).toFixed(3)} in)`;
  }

  /** Text in quotes as Python's repr writes it. */
  function quoted(text) {
    return text.includes("'") && !text.includes('"') ? `"${text}"` : `'${text.replace(/'/g, "\\'")}'`;
  }

  handwheel.numbers = { INCH_MM, Refused, parse_number, short, positive, places, both, quoted };
  handwheel.reckon = {};
})();
