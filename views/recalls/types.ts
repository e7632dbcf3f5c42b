import type { RecalledThing } from "./words.ts";

export type ShownRecall = {
  id: string;
  of: RecalledThing;
  why: string;
  by: string;
  at: Date;
  closing: { done: string; by: string; at: Date } | null;
};

export type ShownReach = {
  buckets: readonly {
    bucket: {
      id: string;
      name: string;
      recipe: { slug: string; name: string };
      number: number;
      standing: { is: string };
    };
    stillIn: boolean;
  }[];
  mixes: readonly { id: string; bucketId: string; at: Date; people: readonly { name: string }[] }[];
  tiles: readonly {
    id: string;
    bucketId: string;
    recipe: string;
    cone: string;
    by: { name: string };
    at: Date;
  }[];
  people: readonly {
    name: string;
    did: readonly { what: "mixed" | "used" | "tile"; note: string; bucket: string; at: Date }[];
  }[];
  hidden: number;
};
