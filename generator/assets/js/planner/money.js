/* A quote in words: the range, its lines, and what they rest on, as generator/pages/job_view.py says it. */
(function () {
  "use strict";
  const { minutes } = handwheel;

  function money([low, high], { currency }) {
    const amount = (end) => `${currency}${Number.isInteger(end) ? end : end.toFixed(2)}`;
    if (low === high) return amount(low);
    return low ? `${amount(low)} to ${amount(high)}` : `up to ${amount(high)}`;
  }

  function waiting(plan) {
    if (!plan.waiting) return "";
    return ` (${minutes(plan.waiting)} of it, ${handwheel.percent(plan.waiting / plan.minutes)}, is waiting and not charged)`;
  }

  function quoteWords(family, plan, quote) {
    const { shop } = family;
    if (!quote) return "No quote: the shop's rate for an hour is not given.";
    const parts = plan.parts.length ? `parts ${money(quote.parts, shop)}` : "no parts";
    const many = quote.unpriced.length;
    return [
      `Labour ${money(quote.labour, shop)}, ${parts}.`,
      `Rests on ${minutes(plan.minutes)} as planned${waiting(plan)}${shop.spread ? ` to ${handwheel.percent(shop.spread)} over` : ""}, ` +
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
