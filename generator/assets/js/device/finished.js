/* The finished walks of this device as a table: looked over, put right, and saved for `tally`. */
(function () {
  "use strict";
  const { device, el, has } = handwheel;
  const NAME = "finished";
  const COLUMNS = ["date", "family", "complaint", "cause", "checks done", "minutes"];
  const place = (id) => document.getElementById(id);
  const { symptoms, families, modes } = JSON.parse(document.querySelector(".hw-device").dataset.names);

  const DAY = /^\d{4}-\d{2}-\d{2}$/;
  const IDS = /^[a-z0-9+ -]*$/;
  const FORMULA = /^[=+\-@\t\r]/; // a table's program would reckon it out
  const kept = () => device.read(NAME, []);
  const done = () => kept().filter(sound);
  const causeWords = (cause) => cause.split("+").map((mode) => (has(modes, mode) ? modes[mode] : mode)).join(" and ");

  /** Whether an entry is a job that ended, in the form in which a walk keeps it. */
  function sound(job) {
    const named = [job.walk, job.family, job.symptom].every((id) => typeof id === "string");
    const ids = [job.family, job.symptom, job.cause].concat(job.could, job.checks || []);
    const minutes = job.minutes === "" || Number(job.minutes) > 0;
    return named && DAY.test(job.date) && Array.isArray(job.could) && minutes && ids.every((id) => typeof id === "string" && IDS.test(id));
  }

  /** A cell as a table file has it: in quotes where a comma, a quote or a line break stands in it, and never a formula. */
  function cell(value) {
    const text = FORMULA.test(String(value)) ? `'${value}` : String(value);
    return /[",\r\n]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text;
  }

  /** The table of jobs, its headings first. */
  function table(jobs) {
    const rows = jobs.map((job) => [job.date, job.family, job.symptom, job.cause, (job.checks || []).join(" "), job.minutes]);
    return [COLUMNS, ...rows].map((row) => row.map(cell).join(",") + "\r\n").join("");
  }

  /** Writes one job anew, or takes it away. */
  function change(job, now) {
    const same = (other) => other.walk === job.walk && other.began === job.began;
    device.write(NAME, kept().flatMap((other) => (same(other) ? now || [] : [other])));
    show();
  }

  function causeChoice(job) {
    if (job.could.length < 2) return causeWords(job.cause);
    const options = job.could.map((cause) => el("option", { value: cause, selected: cause === job.cause }, causeWords(cause)));
    const pick = (event) => change(job, { ...job, cause: event.target.value });
    return el("select", { "aria-label": "What it was", onchange: pick }, options);
  }

  function minutesField(job) {
    const write = (event) => change(job, { ...job, minutes: event.target.value });
    return el("input", { type: "number", min: "1", max: "2000", value: String(job.minutes), "aria-label": "Minutes", onchange: write });
  }

  function row(job) {
    const take = el("button", { type: "button", class: "hw-button", onclick: () => change(job, null), "aria-label": `Take out: ${job.date}` }, "Take out");
    const cells = [job.date, has(families, job.family) ? families[job.family] : job.family, has(symptoms, job.symptom) ? symptoms[job.symptom] : job.symptom, causeChoice(job), minutesField(job), take];
    const names = ["Date", "Machine", "Complaint", "Cause", "Minutes", ""];
    return el("tr", {}, cells.map((content, number) => el("td", { "data-name": names[number] || null }, content)));
  }

  function show() {
    const jobs = done();
    place("finished-none").hidden = jobs.length > 0;
    place("finished-there").hidden = jobs.length === 0;
    place("finished-rows").replaceChildren(...jobs.map(row));
    place("finished-text").value = table(jobs);
    place("finished-save").href = `data:text/csv;charset=utf-8,${encodeURIComponent(table(jobs))}`;
  }

  place("finished-text").addEventListener("focus", (event) => event.target.select());
  window.addEventListener("handwheel-forgotten", show);
  show();
})();
