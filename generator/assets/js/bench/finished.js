/* Finished walks, kept on this device: a shop's counts come from them. One entry a walk: {walk, family, symptom, began,
   open} while it is on, and {date, cause, could, checks, minutes} once it ended in a cure. */
(function () {
  "use strict";
  const { device } = handwheel;
  const NAME = "finished";
  const LONGEST = 240; // minutes on the clock; a job that lay longer lay over a break or a night

  const two = (number) => String(number).padStart(2, "0");

  /** A day of the reader's own calendar, such as 2026-03-14. */
  function day(date) {
    return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
  }

  /** What the end of a walk says: the likeliest cause first, and every other that would have answered so. */
  function end(of, log, state, began, now) {
    const could = handwheel.provedCauses(of, state).map((hypothesis) => hypothesis.id);
    const spent = Math.max(1, Math.round((now - began) / 60000));
    return {
      date: day(now),
      cause: could[0] || "",
      could,
      checks: log.filter((entry) => entry.saw).map((entry) => entry.saw),
      minutes: spent > LONGEST ? "" : spent,
    };
  }

  /** The jobs with this walk's own entry as it stands after a change of its log. */
  function after(jobs, walk, of, log, state, now) {
    const others = jobs.filter((job) => !(job.open && job.walk === walk));
    const own = jobs.find((job) => job.open && job.walk === walk);
    if (!log.length) return own && own.date ? [...others, { ...own, open: false }] : others;
    const [, family, symptom] = walk.split(".");
    const on = { walk, family, symptom, began: own ? own.began : now.getTime(), open: true };
    return [...others, state.cured ? { ...on, ...end(of, log, state, on.began, now) } : on];
  }

  /** Told of every change of a walk; a machine that is not in the book is in no count of it. */
  function note(walk, of, log, state) {
    if (walk.split(".")[1] === "not-listed") return;
    device.write(NAME, after(device.read(NAME, []), walk, of, log, state, new Date()));
  }

  handwheel.finished = { NAME, note };
})();
