/* A set screw on a shaft's flat in section, to scale, as generator/diagrams/flat_section.py draws it. */
(function () {
  "use strict";
  const { both } = handwheel.numbers;
  const SVG = "http://www.w3.org/2000/svg";

  const WIDTH = 340;
  const [SEATED, RAISED, HALF_VIEW, HEADING, LINE] = [96, 244, 70, 44, 19];
  const [SHAFT_PX, SCREW_PX] = [112, 100];

  function node(name, attributes, ...children) {
    const made = document.createElementNS(SVG, name);
    Object.entries(attributes).forEach(([key, value]) => made.setAttribute(key, value));
    made.append(...children.flat());
    return made;
  }

  const at = (value) => value.toFixed(1);
  const path = (look, d) => node("path", { class: look, d });
  const polygon = (look, points) => node("polygon", { class: look, points: points.map(([x, y]) => `${at(x)},${at(y)}`).join(" ") });
  const disc = (look, x, y, r) => node("circle", { class: look, cx: at(x), cy: at(y), r: at(r) });

  function text(x, y, words, look = "", anchor = "start") {
    return node("text", { x: at(x), y: at(y), class: look, "text-anchor": anchor }, words);
  }

  /** The section in px at the largest scale that fits, y downwards. */
  function sceneOf(shaft, flat, depth, thread, turns) {
    const scale = Math.min(SHAFT_PX / shaft, SCREW_PX / thread.diameter);
    const [radius, halfScrew, pitch] = [(shaft / 2) * scale, (thread.diameter / 2) * scale, thread.pitch * scale];
    const [lift, wall] = [turns * pitch, Math.max(0.3 * shaft, 0.6 * thread.diameter) * scale];
    const crown = lift + wall;
    const [seat, centre] = [crown + depth * scale, crown + radius];
    return {
      radius, halfScrew, pitch, lift, wall, crown, centre,
      flat: seat,
      halfFlat: (flat / 2) * scale,
      root: Math.max(0.55 * halfScrew, halfScrew - 0.61 * pitch),
      holeEnd: centre - Math.sqrt(Math.max(0, radius ** 2 - halfScrew ** 2)),
      bottom: Math.min(centre + 0.9 * radius, Math.max(seat + 46, centre + 0.2 * radius)),
    };
  }

  /** One flank downwards; crests keep to the hub's helix, so that screw and hole mesh at any lift. */
  function flank(scene, top, end, shift) {
    const step = scene.pitch / 2;
    const first = Math.ceil((top - scene.crown) / step);
    const last = Math.floor((end - scene.crown) / step);
    const crests = Array.from({ length: Math.max(0, last - first + 1) }, (_, n) => first + n);
    const inside = crests.map((n) => [(n + shift) % 2 ? scene.halfScrew : scene.root, scene.crown + n * step]);
    return [[scene.root, top], ...inside, [scene.root, end]];
  }

  function threaded(scene, middle, top, end, tip = []) {
    const right = flank(scene, top, end, 0).map(([half, y]) => [middle + half, y]);
    const left = flank(scene, top, end, 1).map(([half, y]) => [middle - half, y]);
    return [...right, ...tip, ...left.reverse()];
  }

  /** The rim of the cup is half as wide as the screw (ISO 4029). */
  function screw(scene, middle, head, point) {
    const rim = scene.halfScrew / 2;
    const cup = [[middle + rim, point], [middle, point - 0.6 * rim], [middle - rim, point]];
    return threaded(scene, middle, head, Math.max(head, point - (scene.root - rim)), cup);
  }

  function shaftOf(scene, middle) {
    const { radius, centre, bottom, halfFlat, flat } = scene;
    const half = Math.sqrt(radius ** 2 - (bottom - centre) ** 2);
    const arc = `A${at(radius)} ${at(radius)} 0 0 1`;
    return path(
      "metal",
      `M${at(middle - half)} ${at(bottom)}${arc} ${at(middle - halfFlat)} ${at(flat)}` +
        `h${at(2 * halfFlat)}${arc} ${at(middle + half)} ${at(bottom)}q${at(-half / 2)} 8 ${at(-half)} 0t${at(-half)} 0Z`
    );
  }

  function view(scene, middle, lift, name, hatch) {
    const [head, point] = [scene.crown - scene.wall - lift, scene.flat - lift];
    const [half, deep] = [scene.halfScrew / 2, 0.8 * scene.halfScrew];
    const hole = polygon("bare", threaded(scene, middle, 0, scene.holeEnd));
    return [
      node("g", { "clip-path": `url(#${name})` },
        node("g", { fill: `url(#${hatch})` }, disc("hub", middle, scene.centre, scene.radius + scene.wall)),
        node("g", { "clip-path": `url(#${name}-hub)` }, hole),
        disc("bare", middle, scene.centre, scene.radius)),
      shaftOf(scene, middle),
      path("crown", `M${at(middle - HALF_VIEW)} ${at(scene.crown)}h${at(2 * HALF_VIEW)}`),
      polygon("screw", screw(scene, middle, head, point)),
      path("hidden", `M${at(middle - half)} ${at(head)}v${at(deep)}h${at(2 * half)}v${at(-deep)}`),
    ];
  }

  function flatMeasure(scene) {
    const [left, right, y] = [SEATED - scene.halfFlat, SEATED + scene.halfFlat, scene.flat + 15];
    const ends = `M${at(left)} ${at(scene.flat)}V${at(y + 4)}M${at(right)} ${at(scene.flat)}V${at(y + 4)}`;
    const heads = `M${at(left)} ${at(y)}l5 -3v6ZM${at(right)} ${at(y)}l-5 -3v6Z`;
    return [path("measure", `${ends}M${at(left)} ${at(y)}H${at(right)}`), path("arrow", heads), text(SEATED, y + 17, "A", "head", "middle")];
  }

  /** Beside a view: the arrows point at the gap from outside, for it may be a hair. */
  function gapMeasure(letter, edge, side, top, end) {
    const x = edge + 10 * side;
    const lines = [top, end].map((y) => `M${at(edge)} ${at(y)}h${14 * side}`).join("");
    const line = `${lines}M${at(x)} ${at(top - 14)}V${at(top)}M${at(x)} ${at(end)}V${at(end + 14)}`;
    const heads = `M${at(x)} ${at(top)}l-3 -5h6ZM${at(x)} ${at(end)}l-3 5h6Z`;
    return [path("measure", line), path("arrow", heads), text(x, top - 19, letter, "head", "middle")];
  }

  function turnsShort(turns) {
    const counted = Math.round(turns * 4);
    const whole = Math.floor(counted / 4);
    return `${whole || ""}${["", "¼", "½", "¾"][counted % 4]} ${turns <= 1 ? "turn" : "turns"}`;
  }

  function legend(shaft, flat, depth, thread, turns) {
    const lift = turns * thread.pitch;
    return [
      ["A", `flat ${both(flat)} wide`],
      ["B", `flat ${both(depth)} deep`],
      ["C", `point lifted ${both(lift)}`],
      ["", `so clear of the round by ${both(lift - depth)}`],
      ["", `shaft ${both(shaft)}`],
      ["", `screw ${thread.name}; all drawn to scale`],
    ];
  }

  function definitions(prefix, scene) {
    const hatch = node("pattern", { id: `${prefix}-hatch`, width: 6, height: 6, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" },
      path("hatch", "M0 0v6"));
    /** @type {Array<[string, number]>} */
    const places = [["seated", SEATED], ["raised", RAISED]];
    const clips = places.flatMap(([name, middle]) => [
      node("clipPath", { id: `${prefix}-${name}` },
        node("rect", { x: at(middle - HALF_VIEW), y: 0, width: 2 * HALF_VIEW, height: at(scene.bottom) })),
      node("clipPath", { id: `${prefix}-${name}-hub` }, disc("", middle, scene.centre, scene.radius + scene.wall)),
    ]);
    return node("defs", {}, hatch, clips);
  }

  const heading = (x, first, second) => [text(x, 14, first, "head", "middle"), text(x, 30, second, "", "middle")];

  /** The whole drawing; its looks stand in reckoners.css. */
  function flatSection(shaft, flat, thread, prefix = "flat-section") {
    const { flat_depth, turns_to_clear, whole_quarters } = handwheel.reckon;
    const depth = flat_depth(shaft, flat);
    const turns = whole_quarters(turns_to_clear(depth, thread.pitch));
    const scene = sceneOf(shaft, flat, depth, thread, turns);
    const lines = legend(shaft, flat, depth, thread, turns);
    const top = HEADING + scene.bottom + 24;
    const told = lines.map(([letter, line]) => `${letter} ${line}`.trim()).join("; ");
    return node(
      "svg",
      { id: prefix, class: "hw-flat-section", viewBox: `0 0 ${WIDTH} ${Math.ceil(top + LINE * lines.length - 10)}`, role: "img", "aria-labelledby": `${prefix}-title ${prefix}-desc` },
      node("title", { id: `${prefix}-title` }, "Set screw on the flat of a shaft, seated and backed off"),
      node("desc", { id: `${prefix}-desc` }, `${told}.`),
      definitions(prefix, scene),
      heading(SEATED, "Seated", "on the flat"),
      heading(RAISED, "Backed off", turnsShort(turns)),
      node("g", { transform: `translate(0 ${HEADING})` },
        view(scene, SEATED, 0, `${prefix}-seated`, `${prefix}-hatch`),
        view(scene, RAISED, scene.lift, `${prefix}-raised`, `${prefix}-hatch`),
        flatMeasure(scene),
        text(RAISED, scene.flat + 20, "shaft", "", "middle"),
        gapMeasure("B", SEATED - HALF_VIEW, -1, scene.crown, scene.flat),
        gapMeasure("C", RAISED + HALF_VIEW, 1, scene.flat - scene.lift, scene.flat)),
      lines.flatMap(([letter, line], row) => [
        ...(letter ? [text(8, top + LINE * row, letter, "head")] : []),
        text(26, top + LINE * row, line),
      ])
    );
  }

  handwheel.drawings = { node, text, path, flatSection };
})();
