import type { Decimal } from "decimal.js";

/** What a powder is called where it is bought. */
export type ShownCalled = {
  name: string;
  caution: string;
  also: readonly string[];
  lookAlikes: readonly {
    word: string;
    slug: string;
    name: string;
    region: string | null;
    caution: string;
  }[];
};

export type ShownOrder = {
  supplier: { slug: string; name: string };
  region: string;
  packs: readonly {
    material: { slug: string; name: string };
    called: ShownCalled | null;
    packGrams: Decimal;
    packPrice: Decimal;
    count: number;
    sum: Decimal;
  }[];
  subtotal: Decimal;
  carriage: Decimal;
  /** null where what sending costs is not on record. */
  terms: { freeFrom: Decimal | null } | null;
  toFree: Decimal | null;
  total: Decimal;
};

export type ShownRow = {
  material: { slug: string; name: string };
  needed: Decimal;
  there: Decimal;
  missing: Decimal;
  bought: Decimal;
  notBought: string | null;
};

export type ShownShopping = {
  currency: string | null;
  budget: Decimal | null;
  wishes: readonly { says: string; met: boolean; lacks: readonly string[] }[];
  rows: readonly ShownRow[];
  orders: readonly ShownOrder[];
  total: Decimal;
  /** What is to be known of it, a sentence each. */
  says: readonly string[];
};
