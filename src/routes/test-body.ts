import { z } from "zod";
import { isElement } from "../chem/elements.ts";
import { testKinds, testOutcomes } from "../db/tests.ts";
import { decimalText, idempotencyKey, line, text } from "../wire/fields.ts";
import { revisionNumber } from "./tile-body.ts";

/** A figure as a report prints it: no sign, six decimals at most. */
const figure = decimalText.refine(
  (value) => !value.isNegative() && value.lte(1_000_000) && value.decimalPlaces() <= 6,
  "A figure from 0 to 1000000 with at most six decimals.",
);

const needed = ["element", "value", "unit"] as const;

/** A row of a form may be left blank; one that says anything says all that a figure needs. */
const row = z
  .strictObject({
    element: z
      .string()
      .trim()
      .refine(isElement, "The symbol of an element, such as Pb or Cd, with its capital.")
      .optional(),
    qualifier: z.enum(["=", "<"]).default("="),
    value: figure.optional(),
    unit: line(20).optional(),
    detectionLimit: figure.optional(),
    specimen: line(80, 0).default(""),
  })
  .superRefine((said, context) => {
    if (isBlank(said)) return;
    for (const key of needed)
      if (said[key] === undefined)
        context.addIssue({ code: "custom", path: [key], message: "This is needed." });
  });

type Row = z.output<typeof row>;
type Said = Row & { [Key in (typeof needed)[number]]: NonNullable<Row[Key]> };

const isBlank = ({ element, value, unit, detectionLimit, specimen }: Row): boolean =>
  !element && !value && !unit && !detectionLimit && specimen === "";

const isSaid = (result: Row): result is Said => needed.every((key) => result[key] !== undefined);

/** A test as people put it on record. Figures belong to a laboratory's leach report and to nothing else. */
export const testBody = z
  .strictObject({
    revision: revisionNumber,
    tile: line(40).optional(),
    kind: z.enum(testKinds),
    method: line(500),
    laboratory: line(120, 0).default(""),
    results: z
      .array(row)
      .max(200)
      .default([])
      .transform((rows) =>
        rows.filter(isSaid).map(({ detectionLimit = null, ...said }) => ({
          ...said,
          detectionLimit,
        })),
      ),
    articleClass: line(80, 0).default(""),
    outcome: z.enum(testOutcomes),
    report: line(300, 0).default(""),
    remark: text(2000, 0).default(""),
    idempotencyKey,
  })
  .superRefine(({ kind, laboratory, results }, context) => {
    const fault = (path: string, message: string) =>
      context.addIssue({ code: "custom", path: [path], message });
    if (kind !== "leach" && results.length > 0)
      fault("results", "Figures belong to a leach report. Say what was seen in the remark.");
    if (kind === "leach" && laboratory === "")
      fault(
        "laboratory",
        "A leach test is a laboratory's: say which. No home test stands in for it.",
      );
    if (kind === "leach" && results.length === 0)
      fault("results", "A leach report has at least one figure.");
  });
