/* How the needle bar moves: generator/analysis/timing/offset_crank.py without an offset; tests hold both to the same numbers. */
(function () {
  "use strict";
  const { Refused, short } = handwheel.numbers;

  const radians = (degrees) => (degrees * Math.PI) / 180;

  /** Distance from shaft to slider; `degrees` from where they are furthest apart. */
  function slider_crank(crank, rod, degrees) {
    if (!(crank > 0 && crank < rod && rod < Infinity)) {
      throw new Refused(
        `The connecting rod, ${short(rod)}, must be longer than the crank, ${short(crank)}, and both more than zero.`
      );
    }
    const turned = radians(degrees);
    return crank * Math.cos(turned) + Math.sqrt(rod ** 2 - (crank * Math.sin(turned)) ** 2);
  }

  /** Rise of the needle bar after bottom dead centre, which is where slider and shaft are furthest apart. */
  function slider_crank_rise(stroke, rod, degrees) {
    return slider_crank(stroke / 2, rod, 0) - slider_crank(stroke / 2, rod, degrees);
  }

  /** Degrees after bottom dead centre, 0 to 180, at which the bar has risen so far. */
  function slider_crank_angle(stroke, rod, rise) {
    const crank = stroke / 2;
    const furthest = slider_crank(crank, rod, 0);
    if (!(rise >= 0 && rise <= stroke)) throw new Refused(`A bar with a stroke of ${short(stroke)} cannot rise by ${short(rise)}.`);
    const x = furthest - rise;
    const cosine = (x ** 2 + crank ** 2 - rod ** 2) / (2 * x * crank);
    return (Math.acos(Math.max(-1, Math.min(1, cosine))) * 180) / Math.PI;
  }

  Object.assign(handwheel.reckon, { slider_crank, slider_crank_rise, slider_crank_angle });
})();
