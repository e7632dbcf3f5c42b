import type { Decimal } from "decimal.js";
import type { Part } from "../chem/lines.ts";
import type { Snapshot } from "./schema/index.ts";

/** Where a note was put, and how that place read then. */
export type PutOn = {
  revision: number;
  kind: "whole" | "line" | "oxide" | "tile";
  key: string | null;
  snapshot: Snapshot;
};

/** How the recipe reads now: what the anchors of notes can be found in. */
export type Now = {
  number: number;
  lines: readonly { part: Part; material: { name: string }; amount: Decimal }[];
  unity: Readonly<Record<string, { value: number } | undefined>> | null;
  /** Tiles that were withdrawn, by their ids. */
  withdrawnTiles: ReadonlySet<string>;
};

/**
 * What became of the place that a note was put on, in words, or null where it still reads as it did.
 * A line is known by its material and part, wherever it stands among the lines now.
 */
export function movedSince(put: PutOn, now: Now): string | null {
  switch (put.kind) {
    case "whole":
      return null;
    case "line":
      return lineMoved(put, now);
    case "oxide":
      return oxideMoved(put, now);
    case "tile":
      return put.key !== null && now.withdrawnTiles.has(put.key)
        ? "that tile was withdrawn since"
        : null;
  }
}

function lineMoved({ revision, snapshot }: PutOn, now: Now): string | null {
  const { material = "", amount = "", part } = snapshot;
  const lines = now.lines.filter((line) => line.material.name === material);
  if (lines.length === 0) return `${material} is no longer in it`;
  const amounts = lines.filter((line) => line.part === part).map((line) => line.amount.toFixed());
  if (amounts.length === 0)
    return `${material} is no longer ${part === "base" ? "in the base" : "among the additions"}`;
  if (amounts.includes(amount)) return null;
  return `on revision ${revision}: ${snapshot.says}; now ${amounts.join(" and ")}`;
}

function oxideMoved({ key, snapshot }: PutOn, { unity }: Now): string | null {
  const quantity = key === null ? undefined : unity?.[key];
  if (!quantity) return `${key} is no longer in the unity formula`;
  const value = quantity.value.toFixed(3);
  return snapshot.says === oxideSays(key ?? "", value)
    ? null
    : `${snapshot.says} then, ${value} now`;
}

/** How an oxide reads where a note is put on it. */
export const oxideSays = (oxide: string, value: string): string =>
  `${oxide} ${value} in the unity formula`;
