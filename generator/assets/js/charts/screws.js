/* The reckoners for screws: which key, what screw, how far to back off. */
(function () {
  "use strict";
  const { el, reckoner } = handwheel;
  const { INCH_MM, both, places } = handwheel.numbers;
  const { answer, line, lines } = handwheel.said;
  const { key_for, caveat, near_misses, identify, flat_depth, turns_to_clear, advice, margin_mm } = handwheel.reckon;

  const sourceOf = (data, row) => `${data.sources[row.source] || "In no table here"}${row.memory ? ", from memory" : ""}.`;

  function measures(thread) {
    const turns = places(INCH_MM / thread.pitch, 1);
    return `${thread.name}: ${both(thread.diameter)} thick, ${places(thread.pitch, 3)} mm to a turn, ${turns} turns to the inch.`;
  }

  function keyNodes(data, thread, kind) {
    const key = key_for(thread, kind);
    const warn = caveat(thread, kind);
    return [
      answer(key ? `${key.size} key` : "No key in the tables", key && key.size.endsWith(" in") ? el("small", {}, ` ${places(key.mm, 2)} mm across flats`) : null),
      warn && el("p", { class: "hw-caution" }, warn),
      line(measures(thread)),
      key && el("h4", {}, "Wrong keys next to it"),
      key && lines(near_misses(key).map((miss) => miss.says)),
      (thread.like || []).length > 0 && el("h4", {}, "Screws taken for it"),
      lines((thread.like || []).slice(0, 3)),
      el("p", { class: "hw-rests" }, key ? `Key: ${sourceOf(data, key)} ` : "", `Thread: ${sourceOf(data, thread)}`),
    ];
  }

  function candidateRow({ thread, fits, diameter_error_mm, pitch_error_mm }) {
    const signed = (mm, count) => `${mm < 0 ? "−" : "+"}${Math.abs(mm).toFixed(count)}`;
    return el(
      "tr",
      { class: fits ? "hw-fits" : null },
      el("th", { scope: "row" }, thread.name),
      el("td", {}, fits ? "fits" : "no"),
      el("td", {}, `${places(thread.diameter, 2)} mm`, el("small", {}, ` ${signed(diameter_error_mm, 2)}`)),
      el("td", {}, `${places(thread.pitch, 3)} mm`, el("small", {}, ` ${signed(pitch_error_mm, 3)}`))
    );
  }

  function unknownNodes(fields) {
    if (fields.blank("diameter", "pitch")) return null;
    const pitch = fields.text("pitch-unit") === "tpi" ? INCH_MM / fields.number("pitch") : fields.number("pitch");
    const found = fields.of("pitch", () => identify(fields.length("diameter", "unit"), pitch));
    const fitting = found.filter((candidate) => candidate.fits).map((candidate) => candidate.thread.name);
    const head = ["Thread", "Fits", "Thickness, reading over or under", "Pitch, reading over or under"];
    return [
      answer(fitting.length ? fitting.join(" or ") : "None of the listed threads fits"),
      fitting.length > 1 && line("More than one fits: try each in a known hole or a thread gauge, by hand only."),
      el("div", { class: "hw-table-scroll", tabindex: "0", role: "region", "aria-label": "Threads that fit, scrolls sideways" },
        el("table", { class: "hw-reckon-table" },
          el("thead", {}, el("tr", {}, head.map((words) => el("th", { scope: "col" }, words)))),
          el("tbody", {}, found.map(candidateRow)))),
      el("p", { class: "hw-rests" }, "Fits: within the standard's tolerance (ISO 965-1, 6g, from memory), wear and a hand's reading. An estimate."),
    ];
  }

  function flatOf(fields) {
    if (fields.blank("shaft", "flat", "thread")) return null;
    const [shaft, flat] = [fields.length("shaft", "unit"), fields.length("flat", "unit")];
    return { shaft, flat, thread: fields.thread("thread"), depth: flat_depth(shaft, flat) };
  }

  function flatNodes(fields) {
    const given = flatOf(fields);
    if (!given) return null;
    const turns = turns_to_clear(given.depth, given.thread.pitch);
    return [
      answer(advice(turns)),
      line(`The flat is ${both(given.depth)} deep; ${turns.toFixed(2)} turns lift the point out of it and ${margin_mm()} mm beyond.`),
      line(measures(given.thread)),
      el("p", { class: "hw-rests" }, "The margin is for the burr that a cup point raises; an estimate, from memory."),
    ];
  }

  handwheel.whenGiven("reckoners", (data) => {
    reckoner("key", (fields) => (fields.blank("thread") ? null : keyNodes(data, fields.thread("thread"), fields.text("kind"))));
    reckoner("unknown", unknownNodes);
    reckoner("flat", flatNodes, (fields) => {
      const given = flatOf(fields);
      return given && handwheel.drawings.flatSection(given.shaft, given.flat, given.thread);
    });
  });
})();
