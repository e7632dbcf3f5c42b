import { expect } from "vitest";
import { type ChemistryRequest, type Quantity, workOut } from "../../src/chem/chemistry.ts";
import { type Exact, fortyDigits } from "../reference/forty-digits.ts";
import { expectSame } from "./quantities.ts";

/** Fails unless every number of the chemistry is that of the 40-digit run to 1e-12. */
export function expectAgreement(request: ChemistryRequest, { plusMinus = true } = {}): void {
  const answer = workOut(request);
  const exact = fortyDigits(request, { plusMinus });
  const same = (here: Quantity | null | undefined, there: Exact | null | undefined, what: string) =>
    expectSame(
      here ? { value: here.value, plusMinus: plusMinus ? here.plusMinus : 0 } : undefined,
      there ? { value: there.value.toNumber(), plusMinus: there.plusMinus.toNumber() } : undefined,
      what,
    );
  same(answer.lossOnIgnition, exact.loss, "loss");
  if (answer.unaccounted) same(answer.unaccounted, exact.unaccounted, "unaccounted");
  else expect(Math.abs(exact.unaccounted.value.toNumber())).toBeLessThan(1e-9);

  const { ratios } = answer;
  same(ratios.silicaToAlumina, exact.silicaToAlumina, "silica to alumina");
  same(ratios.alkaliShare, exact.alkaliShare, "alkali share");
  same(ratios.potashAndSoda, exact.potashAndSoda, "potash and soda");
  if (request.boron === "with-alumina") same(ratios.silicaToR2O3, exact.silicaToR2O3, "R2O3");
  if (request.boron === "with-silica")
    same(ratios.glassFormersToAlumina, exact.glassFormersToAlumina, "glass-formers");

  expect(answer.expansion.map(({ model }) => model).sort()).toEqual(
    Object.keys(exact.expansion).sort(),
  );
  for (const { model, value, plusMinus: spread } of answer.expansion) {
    const here = value === null || spread === null ? null : { value, plusMinus: spread };
    same(here, exact.expansion[model], model);
  }

  expect(answer.unity === null).toBe(exact.unity === null);
  for (const [here, there] of [
    [answer.weightPercent, exact.weight],
    [answer.molePercent, exact.mole],
    [answer.unity ?? {}, exact.unity ?? {}],
  ] as const) {
    expect(Object.keys(here).sort()).toEqual(Object.keys(there).sort());
    for (const [oxide, quantity] of Object.entries(here)) same(quantity, there[oxide], oxide);
  }
}
