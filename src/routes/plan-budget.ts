import { Decimal } from "decimal.js";
import { perCurrency } from "../chem/shelf-plan-problem.ts";
import type { PlanPowder } from "../chem/shelf-plan-types.ts";
import { listed } from "../chem/shelf-words.ts";
import type { Ctx } from "../wire/context.ts";
import type { Fault } from "../wire/problems.tsx";
import type { PlanBody } from "../wire/shelf-plan-body.ts";

/** What a shelf may cost, in the currency that prices are compared in. */
export type Budget = { amount: Decimal; currency: string };

/** What a budget buys: one pack of each, by the newest lots. */
export type AnsweredBudget = {
  amount: string;
  currency: string;
  spent: string;
  /** Candidates that are not bought, since nobody knows what they cost in this currency. */
  notPriced: string[];
  says: string;
};

/** The budget that was asked for, or why there can be none: prices are for people of the studio. */
export function readBudget(
  c: Ctx,
  { budget, currency: asked }: PlanBody,
  currency: string | undefined,
): { budget: Budget | undefined; faults: Fault[] } {
  const none = (path: string, says: string) => ({ budget: undefined, faults: [{ path, says }] });
  const path = budget === undefined ? "currency" : "budget";
  if (!c.var.viewer && (budget !== undefined || asked !== undefined))
    return none(path, onlyMembers);
  if (budget === undefined) return { budget, faults: [] };
  if (!currency) return none(path, nothingBought);
  return { budget: { amount: budget, currency }, faults: [] };
}

const onlyMembers =
  "What powders cost is for people of the studio. Sign in, or plan without a budget.";
const nothingBought =
  "No lot of any powder is on record, so nobody can say what a shelf costs. Plan without a budget.";

/** The budget as the search counts it; what is over its last place buys nothing. */
export const inSmallest = ({ amount }: Budget): number =>
  amount.times(perCurrency).floor().toNumber();

export function budgetJson(
  { amount, currency }: Budget,
  shelf: readonly number[],
  powders: readonly PlanPowder[],
): AnsweredBudget {
  const money = (of: Decimal) => `${of.toFixed(2)} ${currency}`;
  const packs = shelf.map((at) => powders[at]?.pack ?? 0);
  const spent = Decimal.sum(0, ...packs).div(perCurrency);
  const notPriced = powders.filter(({ pack }) => pack === null).map(({ name }) => name);
  return {
    amount: amount.toFixed(2),
    currency,
    spent: spent.toFixed(2),
    notPriced,
    says: `${whatIsBought()}${unpricedWords()}`,
  };

  function whatIsBought(): string {
    if (shelf.length > 0) return `One pack of each comes to ${money(spent)} of ${money(amount)}.`;
    if (notPriced.length === powders.length)
      return `Of no material here a price in ${currency} is known, so nothing can be bought.`;
    const most = inSmallest({ amount, currency });
    return powders.some(({ pack }) => pack !== null && pack <= most)
      ? `Nothing that ${money(amount)} buys reaches a recipe, so nothing is bought.`
      : `No pack of these materials costs ${money(amount)} or less, so nothing can be bought.`;
  }

  function unpricedWords(): string {
    if (notPriced.length === 0 || notPriced.length === powders.length) return "";
    return ` Not bought, since no newest lot has a price of it in ${currency}: ${listed(notPriced)}.`;
  }
}
