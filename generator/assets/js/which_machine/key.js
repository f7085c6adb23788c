/* The key to the families as plain steps: what to ask next, and who is left after an answer. As long as
   every question is answered it follows the order that Python worked out. After "I cannot tell" it
   asks what parts the families left most evenly for its looks. */
(function () {
  "use strict";

  function key(data) {
    const questions = new Map(data.questions.map((question) => [question.id, question]));
    const all = data.families.map((_, i) => i);

    function start() {
      return { left: all, node: data.policy, skipped: [], said: [] };
    }

    /** Answers of a question among the families left: [[answer, families]]. */
    function parted(question, left) {
      const parts = new Map();
      for (const family of left) {
        const answer = question.shows[family];
        parts.set(answer, [...(parts.get(answer) || []), family]);
      }
      return [...parts].sort((a, b) => a[0] - b[0]);
    }

    function worth(question, left) {
      const same = parted(question, left).reduce((sum, [, part]) => sum + (part.length / left.length) ** 2, 0);
      return (1 - same) / question.looks;
    }

    function best({ left, skipped }) {
      const open = data.questions.filter((question) => !skipped.includes(question.id));
      const ranked = open.map((question) => [worth(question, left), question]).filter(([value]) => value > 0);
      return ranked.length ? ranked.reduce((most, next) => (next[0] > most[0] ? next : most))[1] : null;
    }

    /** The question to ask now, or null: the families left are the answer. */
    function question(now) {
      if (now.left.length < 2) return null;
      if (now.node && now.node.check) return questions.get(now.node.check);
      return now.node && now.node.remedy ? null : best(now);
    }

    function answer(now, asked, given) {
      const branch = now.node && now.node.outcomes && now.node.outcomes.find((o) => o.outcome === given + 1);
      const left = now.left.filter((family) => asked.shows[family] === given);
      return { left, node: branch ? branch.then : null, skipped: now.skipped, said: [...now.said, [asked, asked.answers[given]]] };
    }

    function skip(now, asked) {
      return { ...now, node: null, skipped: [...now.skipped, asked.id], said: [...now.said, [asked, "cannot tell"]] };
    }

    /** Questions that would tell the families left apart: [question, answer of each]. */
    function differences(left) {
      return data.questions
        .filter((asked) => parted(asked, left).length > 1)
        .map((asked) => [asked, left.map((family) => asked.answers[asked.shows[family]])]);
    }

    return { start, question, parted, answer, skip, differences };
  }

  handwheel.familyKey = key;
})();
