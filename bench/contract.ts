import { Decimal } from "decimal.js";
import { type Chemistry, workOut } from "../src/chem/chemistry.ts";
import { eightLines } from "../tests/reference/shelf.ts";
import { contractSheet } from "./sheets/contract.ts";
import { handOn } from "./sheets/result.ts";

/**
 * How many glazes of eight analysed lines the chemistry answers in a second on one core, against the
 * same values and ± as formulas in a general spreadsheet engine that is given eight new amounts each
 * time. Both are first held to agree; under 10 times as many it fails. The chemistry also writes its
 * findings, what it assumed and a fifth model of expansion, which have no cells.
 */
const least = 10;
const lines = eightLines();
const sheet = contractSheet(lines);

const glazes = Array.from({ length: 256 }, (_, at) =>
  lines.map(({ amount }, line) => amount.toNumber() + ((at * (line + 3)) % 17) / 4),
);
const requests = glazes.map((amounts) => ({
  lines: lines.map((line, at) => ({ ...line, amount: new Decimal(amounts[at] ?? 0) })),
}));

let compared = 0;
for (const at of [0, 100, 200]) {
  sheet.work(glazes[at] ?? []);
  compared += agree(workOut(requests[at] ?? { lines }), sheet.read());
}
console.log(`contract: ${sheet.cells} formulas agree with the chemistry in ${compared} figures`);

const ours = perSecond(2000, (at) => workOut(requests[at % requests.length] ?? { lines }));
const theirs = perSecond(300, (at) => {
  sheet.work(glazes[at % glazes.length] ?? []);
  return sheet.read();
});
handOn(
  {
    ...{ what: "glazes a second", against: "the same as formulas in a spreadsheet engine" },
    ...{ size: "glazes of 8 lines", ratio: ours / theirs, bound: { least } },
  },
  `${ours.toFixed(0)} beside ${theirs.toFixed(0)}`,
);

/** Throws where a figure differs by more than float64's noise; answers how many were compared. */
function agree(answer: Chemistry, cells: ReturnType<typeof sheet.read>): number {
  const ofAnswer = {
    loss: answer.lossOnIgnition,
    ...named("weight", answer.weightPercent),
    ...named("mole", answer.molePercent),
    ...named("unity", answer.unity ?? {}),
    "ratio silicaToAlumina": answer.ratios.silicaToAlumina,
    "ratio alkaliShare": answer.ratios.alkaliShare,
    ...named("expansion", Object.fromEntries(answer.expansion.map((each) => [each.model, each]))),
  } as Record<string, { value: number | null; plusMinus: number | null } | null>;
  for (const [name, cell] of cells) {
    const ours = ofAnswer[name];
    for (const part of ["value", "plusMinus"] as const) {
      const [here, there] = [ours?.[part], cell[part]];
      if (here === undefined || (here === null) !== (there === null))
        throw new Error(`${name}: the chemistry has ${here}, the sheet ${there}`);
      if (Math.abs((here ?? 0) - (there ?? 0)) > 1e-9)
        throw new Error(`${name}, ${part}: the chemistry has ${here}, the sheet ${there}`);
    }
  }
  return 2 * cells.size;
}

function named(of: string, quantities: object): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(quantities).map(([name, each]) => [`${of} ${name}`, each]),
  );
}

/** The median of five runs of so many, after one to warm up. */
function perSecond(times: number, run: (at: number) => unknown): number {
  const rates = Array.from({ length: 6 }, () => {
    const start = performance.now();
    for (let at = 0; at < times; at++) run(at);
    return (1000 * times) / (performance.now() - start);
  });
  return rates.slice(1).sort((a, b) => a - b)[2] ?? 0;
}
