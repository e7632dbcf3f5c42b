import { getCookie, setCookie } from "hono/cookie";
import { z } from "zod";
import {
  heatWords,
  type Preferences,
  temperatureUnits,
  themes,
  usualPreferences,
  weightUnits,
} from "../db/preferences.ts";
import { conventionFields } from "./chemistry-body.ts";
import type { Ctx } from "./context.ts";
import { line } from "./fields.ts";

const { unity, iron, boron } = conventionFields;

const words = z.strictObject({
  weight: z.enum(weightUnits, { error: "g or lb." }),
  temperature: z.enum(temperatureUnits, { error: "C or F." }),
  heat: z.enum(heatWords, { error: "cone or temperature." }),
  theme: z.enum(themes, { error: "system, light or dark." }),
  unity: unity.unwrap(),
  iron: iron.unwrap(),
  boron: boron.unwrap(),
});

/**
 * How somebody wants to read; what is not sent stays as it is. `own` and null stand for the
 * studio's own names, since an empty field of a form is one that was not filled in.
 */
export const readingBody = words.partial().extend({
  region: z
    .union([z.null(), line(60, 0)], { error: "A region, or own." })
    .transform((region) => (region === null || region === ownNames ? "" : region))
    .optional(),
});

/** What a form sends for the names that the studio itself uses. */
export const ownNames = "own";

const kept = words.partial().extend({ region: line(60).optional() });

const year = 365 * 24 * 60 * 60;
const name = "reading";

/**
 * How a browser without an account was told to read. It may hold anything, so that whatever is not
 * one of our own words makes all of it the usual.
 */
export function readingCookie(c: Ctx): Preferences {
  const text = getCookie(c, name);
  if (text === undefined || text.length > 400) return usualPreferences;
  const read = kept.safeParse(Object.fromEntries(new URLSearchParams(text)));
  return read.success ? { ...usualPreferences, ...given(read.data) } : usualPreferences;
}

/** Keeps how a browser without an account wants to read, for a year. */
export function keepReading(c: Ctx, reading: Preferences): void {
  const chosen = Object.entries(reading).filter(
    ([word, is]) => is !== usualPreferences[word as keyof Preferences],
  );
  setCookie(c, name, new URLSearchParams(chosen).toString(), {
    ...{ path: "/", httpOnly: true, sameSite: "Lax", maxAge: year },
    secure: c.var.config.publicUrl?.startsWith("https:") ?? false,
  });
}

/** The words that were said, without those that were not. */
export const given = (
  said: {
    [Word in keyof Preferences]?: Preferences[Word] | undefined;
  },
): Partial<Preferences> =>
  Object.fromEntries(Object.entries(said).filter(([, is]) => is !== undefined));
