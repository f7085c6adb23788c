/* A quote in words: the range, its lines, and what they rest on, as generator/wording/jobs/quotes.py says it. */
(function () {
  "use strict";
  const { minutes } = handwheel;

  function money([low, high], { currency }) {
    const amount = (end) => `${currency}${Number.isInteger(end) ? end : end.toFixed(2)}`;
    if (low === high) return amount(low);
    return low ? `${amount(low)} to ${amount(high)}` : `up to ${amount(high)}`;
  }

  const ownJobs = (took) => `The middle of this shop's own ${took.jobs} such jobs took ${minutes(took.minutes)}, looking included.`;

  function waiting(plan, took) {
    if (!plan.waiting) return "";
    const share = Math.min(plan.waiting / (took || plan).minutes, 1);
    return ` (${minutes(plan.waiting)} of it, ${handwheel.percent(share)}, is waiting and not charged)`;
  }

  function quoteWords(family, plan, quote) {
    const { shop } = family;
    if (!quote) return "No quote: the shop's rate for an hour is not given.";
    const parts = plan.parts.length ? `parts ${money(quote.parts, shop)}` : "no parts";
    const many = quote.unpriced.length;
    const took = handwheel.job.recorded(family, plan);
    return [
      `Labour ${money(quote.labour, shop)}, ${parts}.`,
      took ? ownJobs(took) : "",
      `Rests on ${took ? "that" : `${minutes(plan.minutes)} as planned`}${waiting(plan, took)}${shop.spread ? ` to ${handwheel.percent(shop.spread)} over` : ""}, ` +
        `${money([shop.labour_rate, shop.labour_rate], shop)} an hour` +
        `${shop.margin && plan.parts.length ? `, parts at their price and ${handwheel.percent(shop.margin)}` : ""}; ` +
        `rounded outward to ${money([shop.rounding, shop.rounding], shop)}.`,
      many ? `Without the price of ${many} part${many > 1 ? "s" : ""} that the book has no price for.` : "",
      shop.tax ? `${shop.tax.replace(/\.$/, "")}.` : "",
      shop.invented ? "The shop and its prices are invented." : "",
      "A quote given before the machine is open is a range: tell the owner when it passes what the machine is worth.",
    ].filter(Boolean).join(" ");
  }

  handwheel.planMoney = { money, quoteWords };
})();
