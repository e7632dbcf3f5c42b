import type { Brings } from "./types.ts";

const counted = (count: number, one: string, many: string): string =>
  count === 1 ? `one ${one}` : `${count} ${many}`;

/** What an import brings, in words: “3 recipes and one material”. */
export function bringsWords({ recipes, materials, analyses, notes }: Brings): string {
  const parts = [
    recipes > 0 && counted(recipes, "recipe", "recipes"),
    materials > 0 && counted(materials, "new material", "new materials"),
    analyses > 0 && counted(analyses, "analysis", "analyses"),
    notes > 0 && counted(notes, "quoted note", "quoted notes"),
  ].filter((part) => part !== false);
  const last = parts.pop();
  if (last === undefined) return "nothing new as it stands";
  return parts.length === 0 ? last : `${parts.join(", ")} and ${last}`;
}
