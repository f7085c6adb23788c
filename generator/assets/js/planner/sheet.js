/* The plan as a job sheet, to read on the screen and to print for the bench. */
(function () {
  "use strict";
  const { el, root, minutes } = handwheel;
  const { cautionLines, listed } = handwheel.walkWords;
  const { money, quoteWords } = handwheel.planMoney;

  const LONG = [[29, "hw-long hw-longest"], [22, "hw-long"]]; // steps beyond which a sheet prints closer, as job sheets do
  const OWN = ["set", "prove"]; // phases whose steps paper sets in their own way
  const ABOVE = "The machine's own service data stands above every figure here.";
  const PROOFS_SHORT = "On paper, the way of each proof is left out; it stands on the page and in the book of checks.";

  const blank = (label) => el("span", { class: "hw-blank" }, `${label} `, el("i", {}));
  const link = (href, title) => (href ? el("a", { href: root() + href }, title) : title);
  const between = (nodes, mark = ", ") => nodes.flatMap((node, n) => (n ? [mark, node] : [node]));

  /** Record text that our own Markdown converter made. */
  function converted(html) {
    const block = el("div", { class: "hw-how" });
    block.innerHTML = html;
    return block;
  }

  function again(family, ids) {
    const names = ids.filter((id) => family.cautions[id]).map((id) => `${family.cautions[id].title}. `);
    return names.length ? el("b", { class: "hw-again" }, "Again: ", names.join("")) : null;
  }

  function heading(told) {
    const { step } = told;
    const cells = step.tray.length
      ? el("span", { class: "hw-cells" }, ` ${step.do === "refit" ? "from" : "to"} cell${step.tray.length > 1 ? "s" : ""} ${step.tray.join(", ")}`)
      : null;
    return el("h3", {}, el("span", { class: "hw-sr" }, `Step ${told.number}: `),
      told.do && el("span", { class: "hw-verb" }, told.do), " ", link(told.href, told.title), " ",
      step.minutes ? el("span", { class: "hw-min" }, minutes(step.minutes)) : null, cells);
  }

  function jointLines(told) {
    const joints = told.joints.map((j) => el("li", {}, link(j.href, j.title), `: ${j.facts.join("; ")}.`));
    const lines = [...joints, ...told.notes.map((note) => el("li", {}, note))];
    return lines.length ? el("ul", { class: "hw-joints" }, lines) : null;
  }

  function withWhat(family, told) {
    const tools = told.step.tools.map((id) => family.tools[id] || id);
    const way = family.techniques[told.technique];
    const live = told.power === "on" ? el("b", { class: "hw-power hw-live" }, "Power on for this; off again after it. ") : null;
    if (!tools.length && !way && !live) return null;
    return el("p", { class: "hw-with" }, live, tools.length ? el("span", { class: "hw-tools" }, `${tools.join(", ")}.`) : null,
      way ? [" If it sticks: ", link(`techniques/${told.technique}.html`, way.title), "."] : null);
  }

  /** A setting that is read first: a box for leaving it, a box for setting it. */
  function readLines(told) {
    if (!told.read) return [];
    const how = el("span", {});
    how.innerHTML = told.read;
    const time = (mins) => el("span", { class: "hw-min" }, minutes(mins));
    return [
      el("p", { class: "hw-read" }, el("b", {}, "Read first"), " ", time(told.read_minutes), " ", how, " Right: leave it as it is."),
      el("p", { class: "hw-read" }, el("b", {}, "Out: set it"), " ", time(told.set_minutes)),
    ];
  }

  function stepRow(family, told) {
    const { do: does, part, phase } = told.step;
    const own = OWN.includes(phase) && `hw-do-${phase}`;
    return el("li", { id: `step-${told.number}`, class: own, "data-do": does, "data-part": part },
      el("div", {},
        told.turn && el("p", { class: "hw-turn" }, told.turn),
        ...cautionLines(family, told.cautions),
        heading(told),
        again(family, told.again),
        ...readLines(told),
        told.how && converted(told.how),
        told.sign && el("p", {}, blank(told.sign), " ", blank("Date")),
        told.target && el("p", { class: "hw-target" }, el("b", {}, told.target), ` ${told.measure}. `, blank("Reading")),
        told.expect && el("p", { class: "hw-expect" }, el("b", {}, "A good one:"), ` ${told.expect}`),
        jointLines(told),
        withWhat(family, told)));
  }

  function section(title, ...content) {
    return el("section", {}, el("h2", {}, title), ...content);
  }

  const list = (family, steps) => el("ol", { class: "hw-jobsteps" }, steps.map((step) => stepRow(family, step)));

  function head(family, plan, quote) {
    const modes = handwheel.job.putsRight(family, plan).map((mode) => link(family.modes[mode].href, family.modes[mode].title));
    return el("header", { class: "hw-job-head" },
      el("h2", { id: "the-plan", class: "hw-plan-title", tabindex: "-1" }, "One visit ", el("small", {}, link(family.href, family.title))),
      modes.length ? el("p", { class: "hw-serves" }, "Puts right: ", ...between(modes), ".") : null,
      el("p", { class: "hw-sums" }, el("b", { class: "hw-min" }, minutes(plan.minutes)), " from a closed machine to a proved one",
        plan.waiting ? `, ${minutes(plan.waiting)} of it waiting` : "",
        quote && [", ", el("b", { class: "hw-qty" }, money(quote.total, family.shop))], ". ",
        el("small", { class: "hw-rests" }, quoteWords(family, plan, quote))));
  }

  function partWords(family, id) {
    const { title, href, price, stock } = family.parts[id];
    const on = stock === null ? "not on the stock list" : stock ? `${stock} on the shelf` : "none on the shelf";
    return el("span", {}, el("i", { class: "hw-box" }), link(href, title), `: ${price ? money(price, family.shop) : "price not noted"}, ${on}`);
  }

  function before(family, plan) {
    const tools = handwheel.job.tools(family, plan).map((id) => link(`tools.html#${id}`, family.tools[id] || id));
    const row = (name, nodes, mark) => (nodes.length ? [el("dt", {}, name), el("dd", {}, ...between(nodes, mark), ".")] : []);
    return section("Before you start", ...cautionLines(family, handwheel.job.throughout(family, plan)),
      el("dl", { class: "hw-dl hw-job-dl" }, ...row("Parts", plan.parts.map((id) => partWords(family, id)), "; "), ...row("Tools", tools)));
  }

  function holds(family, cell) {
    const title = (cell.joint && family.joints[cell.holds]) || cell.holds.replace(/-/g, " ");
    const count = cell.joint && family.counts[cell.holds];
    return `${count ? `${count} × ` : ""}${count ? title : title[0].toUpperCase() + title.slice(1)}`;
  }

  function trayMap(family, plan) {
    const cell = (c) => el("li", { id: `cell-${c.cell}` }, el("b", {}, String(c.cell)), el("span", {}, holds(family, c)), el("small", {}, family.parts[c.part].title));
    const map = section("Tray", el("ol", { class: "hw-tray" }, plan.tray.map(cell)));
    map.classList.add("hw-job-side");
    return plan.tray.length ? map : null;
  }

  function orderSaid(plan) {
    return plan.changes.fewest
      ? "No other order of this way in turns the machine over and changes tools less."
      : "A good order of the way in, but not proved to be the one with the fewest turns of the machine and changes of tool.";
  }

  /** How the records say to carry out each remedy, equal words told once. */
  function ways(family, plan) {
    const told = new Map();
    handwheel.job.putsRight(family, plan).map((id) => family.modes[id]).forEach((mode) => {
      const key = JSON.stringify([mode.says, mode.technique]);
      if (mode.says.length || mode.technique) told.set(key, [...(told.get(key) || []), mode]);
    });
    return [...told.values()].map((modes) => {
      const [{ says, technique }] = modes;
      const way = family.techniques[technique];
      return el("div", { class: "hw-way" }, el("p", {}, el("b", {}, listed(modes.map((m) => m.title)))), says.map((words) => el("p", {}, words)),
        way ? el("p", {}, "Way of working: ", link(`techniques/${technique}.html`, way.title), ".") : null);
    });
  }

  function worth(family, plan, add) {
    const found = plan.while_open.filter((w) => w.later_minutes - w.extra_minutes > family.proving + 1e-9);
    if (!found.length) return null;
    const row = (w) => el("tr", { "data-part": w.part },
      el("th", { scope: "row" }, link(family.parts[w.part].href, family.parts[w.part].title)),
      el("td", { class: "hw-qty" }, w.extra_minutes ? `+${minutes(w.extra_minutes)}` : "no more"),
      el("td", { class: "hw-qty" }, minutes(w.later_minutes)),
      el("td", { class: "hw-plan-add" }, el("button", { type: "button", class: "hw-plain", onclick: () => add(w.part), "aria-label": `Add: renew ${family.parts[w.part].title}` }, "Add")));
    const titles = ["Renew as well", "Now", "Later"].map((words) => el("th", { scope: "col" }, words));
    const more = found.length > family.shown_open ? `${found.length - family.shown_open} more would save less. ` : "";
    return section("While it is open",
      el("table", { class: "hw-table hw-open" }, el("thead", {}, el("tr", {}, titles, el("th", { scope: "col", class: "hw-plan-add" }, el("span", { class: "hw-sr" }, "Add")))),
        el("tbody", {}, found.slice(0, family.shown_open).map(row))),
      el("p", { class: "hw-rests" }, `Extra minutes now, against a job of its own later. ${more}Look whether it is worn before you ask the owner.`));
  }

  function readings(told) {
    const made = told.filter((step) => step.step.do === "set");
    if (!made.length) return null;
    const titles = ["Setting, in order", "Should be", "Found", "Left at"].map((words) => el("th", { scope: "col" }, words));
    const row = (step) => el("tr", {}, el("th", { scope: "row" }, el("a", { href: `#step-${step.number}` }, step.title)), el("td", {}, step.target || "as it proves"), el("td", {}), el("td", {}));
    return section("Readings", el("p", { class: "hw-rests" }, ABOVE), el("table", { class: "hw-table hw-readings" }, el("thead", {}, el("tr", {}, titles)), el("tbody", {}, made.map(row))));
  }

  function proving(family, sew) {
    const row = stepRow(family, sew);
    row.firstElementChild.append(el("ul", { class: "hw-tests" }, family.tests.map((words) => el("li", {}, words))));
    return section("Prove it on scrap", el("ol", { class: "hw-jobsteps" }, row));
  }

  /** What turned out to be wrong goes into the tally: boxes and lines for a pencil. */
  function tally(family, plan) {
    const was = (...words) => el("span", { class: "hw-was" }, ...words);
    const modes = handwheel.job.putsRight(family, plan).flatMap((id) => [was(family.modes[id].title), " "]);
    const made = section("For the tally", el("p", {}, "It was: ", modes, was(blank("something else"))),
      el("p", {}, ["Model", "Minutes taken", "Date", "Initials"].flatMap((words) => [blank(words), " "])));
    made.classList.add("hw-outcome");
    return made;
  }

  const longOf = (plan) => (LONG.find(([most]) => plan.steps.length > most) || [0, ""])[1];

  /** The sheet's nodes; `add` takes the id of a part to renew as well. */
  function sheet(family, plan, quote, add) {
    const told = handwheel.job.told(family, plan);
    const of = (...phases) => told.slice(0, -1).filter((step) => phases.includes(step.step.phase));
    const [wayIn, work, wayOut] = [of("way-in"), of("work"), of("way-out", "set", "oil", "prove")];
    const way = ways(family, plan);
    return [
      head(family, plan, quote),
      el("div", { class: "hw-job-body" },
        before(family, plan),
        trayMap(family, plan),
        wayIn.length ? section("The way in", list(family, wayIn), el("p", { class: "hw-rests" }, orderSaid(plan))) : null,
        work.length || way.length ? section("The work", ...way, list(family, work)) : null,
        worth(family, plan, add),
        wayOut.length ? section(wayIn.length ? "The way out" : "Setting", list(family, wayOut), longOf(plan) ? el("p", { class: "hw-rests hw-on-paper" }, PROOFS_SHORT) : null) : null,
        readings(told),
        proving(family, told[told.length - 1]),
        tally(family, plan)),
    ];
  }

  handwheel.planSheet = { sheet, longOf };
})();
