import { Decimal } from "decimal.js";
import { expect, it } from "vitest";
import { decimalsFor, plainNumber, Quantity } from "../../views/parts/quantity.tsx";

const words = (quantity: unknown) =>
  String(quantity)
    .replace(/<[^>]+>/g, "")
    .replace(/&lt;/g, "<")
    .replace(/&gt;/g, ">");

// Two significant digits of the uncertainty, the value to the same place: ISO/IEC Guide 98-3:2008
// (GUM), 7.2.6.
it.each([
  [3.24159, 0.034, "3.242 ± 0.034"],
  [3.24159, 0.34, "3.24 ± 0.34"],
  [63.31, 4.1, "63.3 ± 4.1"],
  [1222.4, 18.2, "1222 ± 18"],
  [-3.456, 0.34, "−3.46 ± 0.34"],
])("rounds %d ± %d to %s", (value, plusMinus, said) => {
  expect(words(<Quantity value={value} plusMinus={plusMinus} />)).toBe(said);
});

it("keeps to the decimals a column asks for", () => {
  expect(words(<Quantity value={12.3456} plusMinus={0.0312} digits={2} unit="%" />)).toBe(
    "12.35 ± 0.03 %",
  );
});

it("never prints as nothing what is only small", () => {
  expect(words(<Quantity value={0.0004} plusMinus={0.0002} digits={2} />)).toBe("< 0.01 ± < 0.01");
  expect(words(<Quantity value={-0.0004} digits={2} />)).toBe("> −0.01");
  expect(words(<Quantity value={0} plusMinus={0} digits={2} />)).toBe("0.00");
});

it("says why there is no value", () => {
  expect(words(<Quantity value={null} reason="no alumina to divide by" />)).toBe(
    "none: no alumina to divide by",
  );
  expect(words(<Quantity value={null} />)).toBe("none");
});

it("writes a typographic minus, but none before zero", () => {
  expect(plainNumber(-3.46, 1)).toBe("−3.5");
  expect(plainNumber(-0.001, 2)).toBe("0.00");
  expect(plainNumber(new Decimal("1.005"), 2)).toBe("1.01");
});

it("shows no more than four decimals, however small the ±", () => {
  expect(decimalsFor(1e-9)).toBe(4);
  expect(decimalsFor(340)).toBe(0);
  expect(decimalsFor(null)).toBe(2);
});
