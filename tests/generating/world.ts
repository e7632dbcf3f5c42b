import { mulberry32 } from "../../src/demo/random.ts";
import type { TestStudio, Who } from "../studio.ts";

export type Person = Exclude<Who, "visitor">;

/** What was made so far, for steps to go on from. */
export type Made = {
  materials: string[];
  recipes: string[];
  forks: { slug: string; of: string }[];
  notes: string[];
  objections: string[];
  tiles: { id: string; slug: string }[];
  tests: string[];
  bodies: string[];
  kilns: string[];
  firings: string[];
  lots: { id: string; material: string }[];
  buckets: { id: string; slug: string }[];
  mixes: string[];
  trials: string[];
  results: string[];
  pictures: string[];
  others: Record<string, string[]>;
};

/** A studio that is being made up from a seed, and what may be drawn of it. */
export type World = {
  studio: TestStudio;
  made: Made;
  random: () => number;
  pick: <T>(from: readonly T[]) => T;
  chance: (share: number) => boolean;
  amount: (least: number, most: number, places?: number) => string;
  words: () => string;
  name: (of: string) => string;
  /** Posts; @returns what was answered, or undefined where it was refused. */
  post: (who: Person, path: string, json: unknown) => Promise<Record<string, unknown> | undefined>;
  put: (who: Person, path: string, json: unknown) => Promise<boolean>;
  form: (who: Person, path: string, form: FormData) => Promise<Record<string, unknown> | undefined>;
};

/** Text as people paste it: accents, right to left, joined signs, what cannot be seen. */
const oddWords = [
  "Sieve it twice.",
  "Crème brûlée, ½ dip, 1½ mm",
  "خزف אמנות",
  "e\u0301 and é, \u200d\u200b joined",
  "👩🏽‍🎨 🏺 \u{1F9EA}",
  'quote " backslash \\ slash / <b>&amp;</b>',
  "line one\nline two\ttab",
  "\u2028 and \u2029, \ufeff, \u0007".replace("\u0007", "~"),
  "ﬁne ﬂux Ǆ ß İ ı",
  "𝕲𝖑𝖆𝖟𝖊 漢字 ｶﾅ",
  "' ; drop -- it $1 %s {}",
];

export function openWorld(studio: TestStudio, seed: number): World {
  const random = mulberry32(seed);
  const pick = <T>(from: readonly T[]): T => {
    const one = from[Math.floor(random() * from.length)];
    if (one === undefined) throw new NothingYet();
    return one;
  };
  const made: Made = {
    materials: [],
    recipes: [],
    forks: [],
    notes: [],
    objections: [],
    tiles: [],
    tests: [],
    bodies: [],
    kilns: [],
    firings: [],
    lots: [],
    buckets: [],
    mixes: [],
    trials: [],
    results: [],
    pictures: [],
    others: {},
  };
  const heard = async (answer: Response, path: string) => {
    if (answer.status >= 500) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
    if (!answer.ok) return undefined;
    return answer.status === 204 ? {} : ((await answer.json()) as Record<string, unknown>);
  };
  let named = 0;
  return {
    studio,
    made,
    random,
    pick,
    chance: (share) => random() < share,
    amount: (least, most, places = 2) =>
      String(Number((least + random() * (most - least)).toFixed(places))),
    words: () => pick(oddWords),
    name: (of) => {
      named += 1;
      return `${pick(["Ebb", "Léda", "Tern ½", "Größe", "潮", "Slack"])} ${of} ${named}`;
    },
    post: async (who, path, json) => heard(await studio.send(who, path, { json }), path),
    put: async (who, path, json) =>
      (await heard(await studio.send(who, path, { method: "PUT", json }), path)) !== undefined,
    form: async (who, path, form) =>
      heard(await studio.send(who, path, { form, accept: "application/json" }), path),
  };
}

/** A step asks for something that was not made yet. */
export class NothingYet extends Error {}
