import type { Decimal } from "decimal.js";

/**
 * A number as it is printed: `digits` decimals, a typographic minus, and no minus before zero.
 * `plainNumber(-3.456, 2)` is "−3.46".
 */
export const plainNumber = (value: number | Decimal, digits: number): string => {
  const text = value.toFixed(digits);
  const size = text.replace("-", "");
  return text.startsWith("-") && /[1-9]/.test(size) ? `−${size}` : size;
};

/**
 * How many decimals a value deserves when its ± is known: two significant digits of the ±, between
 * none and four. ± 0.034 gives 3, ± 0.34 gives 2, ± 34 gives 0. Without a ±, two.
 */
export const decimalsFor = (plusMinus: number | null | undefined): number => {
  if (!plusMinus) return 2;
  const leading = Math.floor(Math.log10(Math.abs(plusMinus)));
  return Math.min(Math.max(1 - leading, 0), 4);
};

/** What is too small to print is said to be small, never printed as nothing. */
const printed = (value: number, digits: number): string => {
  const text = plainNumber(value, digits);
  if (value === 0 || /[1-9]/.test(text)) return text;
  return value > 0
    ? `< ${plainNumber(10 ** -digits, digits)}`
    : `> ${plainNumber(-(10 ** -digits), digits)}`;
};

type QuantityProps = {
  value: number | null;
  plusMinus?: number | null | undefined;
  unit?: string | undefined;
  digits?: number | undefined;
  reason?: string | undefined;
};

/**
 * A computed quantity with its 95 % ± in lighter ink, both to the same decimals.
 *
 * @param digits decimals wanted, where a column must line up; otherwise the ± decides.
 * @param reason why there is no value, said after "none".
 */
export const Quantity = ({ value, plusMinus, unit, digits, reason }: QuantityProps) => {
  if (value === null)
    return <span class="quantity quantity-none">{reason ? `none: ${reason}` : "none"}</span>;
  const decimals = digits ?? decimalsFor(plusMinus);
  return (
    <span class="quantity">
      <span class="quantity-value">{printed(value, decimals)}</span>
      {plusMinus ? <span class="quantity-doubt"> ± {printed(plusMinus, decimals)}</span> : null}
      {unit ? <span class="quantity-unit"> {unit}</span> : null}
    </span>
  );
};
