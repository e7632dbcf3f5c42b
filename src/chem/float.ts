import type { Decimal } from "decimal.js";

const largestExact = Number.MAX_SAFE_INTEGER;
const word = 1e7;
const powersOfWord = [1, 1e7, 1e14, 1e21];

/**
 * The float64 nearest to a decimal, like `toNumber` but without going through text, which would
 * cost more than the rest of the chemistry. Decimals keep their digits in words of seven, aligned
 * on the decimal point; up to 2^53 the words make an exact integer, and one division by an exact
 * power of ten rounds correctly. Longer numbers take the long way.
 */
export function toFloat(decimal: Decimal): number {
  const { d: words, e: exponent, s: sign } = decimal;
  if (!words || words.length > 3) return decimal.toNumber();
  let digits = 0;
  for (const next of words) digits = digits * word + next;
  const scale = powersOfWord[words.length - 1 - Math.floor(exponent / 7)];
  if (digits > largestExact || scale === undefined) return decimal.toNumber();
  return (sign * digits) / scale;
}
