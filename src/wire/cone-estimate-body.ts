import { z } from "zod";
import { mostReadings, type Reading } from "../chem/cone-estimate.ts";
import { coneTableIds, toCelsius } from "../chem/cone-tables.ts";

const minutes = z.number().min(-1e6).max(1e6);
const temperature = z.number().min(-500).max(5000);

const pairs = z
  .array(z.tuple([minutes, temperature], { error: "A reading is [minutes, temperature]." }))
  .max(mostReadings);

/** Readings as a logger writes them: one line each, minutes and a temperature. */
const pasted = z
  .string()
  .max(1_000_000)
  .transform((typed, context) => {
    const { readings, faults } = readLines(typed);
    for (const message of faults.slice(0, mostFaults))
      context.addIssue({ code: "custom", message });
    return readings;
  })
  .pipe(pairs);

const { $schema: _, ...jsonPairs } = z.toJSONSchema(pairs, { io: "input" });

/** POST /cone-estimate: nothing of it is stored. `readings` are pairs, or their text in a form. */
export const coneEstimateBody = z
  .object({
    readings: z
      .unknown()
      .meta({ anyOf: [jsonPairs, { type: "string" }] })
      .transform((sent, context): Reading[] => {
        const read = (typeof sent === "string" ? pasted : pairs).safeParse(sent);
        if (read.success) return read.data;
        for (const issue of read.error.issues) context.addIssue({ ...issue, continue: true });
        return z.NEVER;
      }),
    table: z.enum(coneTableIds).default("self-supporting"),
    unit: z.enum(["celsius", "fahrenheit"]).default("celsius"),
  })
  .transform(({ readings, unit, ...rest }) => ({
    ...rest,
    unit,
    readings: unit === "celsius" ? readings : readings.map(inCelsius),
  }));

const inCelsius = ([at, fahrenheit]: Reading): Reading => [at, toCelsius(fahrenheit)];

const mostFaults = 5;

/** Minutes and a temperature, apart by a comma, a semicolon, a tab or spaces. */
const readingLine = /^(-?\d{1,7}(?:\.\d{1,20})?)(?:\s*[,;]\s*|\s+)(-?\d{1,5}(?:\.\d{1,20})?)$/;

function readLines(typed: string): { readings: Reading[]; faults: string[] } {
  const readings: Reading[] = [];
  const faults: string[] = [];
  for (const [at, line] of typed.split(/\r\n|\r|\n/).entries()) {
    const written = line.trim();
    const heading = at === 0 && /[a-z]/i.test(written);
    if (written === "" || heading) continue;
    const [, when, celsius] = readingLine.exec(written) ?? [];
    if (when !== undefined && celsius !== undefined) readings.push([Number(when), Number(celsius)]);
    else
      faults.push(
        `Line ${at + 1}: “${written.slice(0, 40)}” is not minutes and a temperature, such as 615,1222.`,
      );
  }
  return { readings, faults };
}
