import { Decimal } from "decimal.js";

/** Whether a text uses a comma for decimals; then `1.200` may well mean twelve hundred. */
export type NumberHabit = { readonly decimalComma: boolean };

export type AmountText = { kind: "amount"; amount: Decimal } | { kind: "unreadable"; says: string };

const unreadable = (says: string): AmountText => ({ kind: "unreadable", says });

/** A unit that changes nothing, since amounts are parts in one measure. */
export const unitPattern = "(?:%|percent|parts?|pts?|grams?|gms?|gr?)";

/** Something meant as a number, well formed or not. */
export const numberPattern = "[+\\-−]?(?:\\d[\\d.,'’]*|[.,]\\d+)";

const plain = /^(?:\d+(?:\.\d+)?|\.\d+)$/;
const withComma = /^(\d+),(\d+)$/;

/**
 * Reads an amount as people write it: `40`, `12.5`, and `12,5` for the same. A comma or stop
 * before exactly three digits may part thousands, and that is never guessed: `1,200` is refused,
 * `0,125` is not. At most 1000000, with at most six decimals.
 */
export function readAmount(text: string, { decimalComma }: NumberHabit): AmountText {
  if (/^[-−]/.test(text)) return unreadable("An amount is not below 0.");
  const digits = text.replace(/^\+/, "");
  const comma = withComma.exec(digits);
  const thousands = `${text} can be read in two ways: write it without parting thousands, and decimals with a full stop.`;
  if (comma?.[2]?.length === 3 && !/^0+$/.test(comma[1] ?? "")) return unreadable(thousands);
  if (decimalComma && /^(?!0\.)\d{1,3}\.\d{3}$/.test(digits)) return unreadable(thousands);
  const normal = comma ? digits.replace(",", ".") : digits;
  if (!plain.test(normal)) return unreadable(`${text} cannot be read as an amount.`);
  const amount = new Decimal(normal);
  if (amount.gt(1_000_000)) return unreadable("An amount is at most 1000000.");
  if (amount.decimalPlaces() > 6) return unreadable("An amount has at most six decimals.");
  return { kind: "amount", amount };
}
