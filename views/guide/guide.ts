import { aboutFiring } from "./about-firing.ts";
import { aboutRecipes } from "./about-recipes.ts";
import { aboutUse } from "./about-use.ts";
import type { GuidePage } from "./types.ts";

const written = [...aboutRecipes, ...aboutFiring, ...aboutUse];

/** The pages in the order in which a newcomer reads them. */
const order = [
  "base-and-additions",
  "cones",
  "unity-formula",
  "plus-minus",
  "approval",
  "dust-and-poison",
  "testing",
  "reading-a-tile",
  "crazing",
  "overlaps",
  "bucket",
  "restating",
];

/** Every page of the guide, in that order. */
export const guide: readonly GuidePage[] = order.flatMap((slug) =>
  written.filter((page) => page.slug === slug),
);

type Neighbour = Pick<GuidePage, "slug" | "title"> | null;

export type PlacedPage = { page: GuidePage; previous: Neighbour; next: Neighbour };

/** A page with the ones before and after it; undefined where there is none. */
export function findGuidePage(slug: string): PlacedPage | undefined {
  const place = guide.findIndex((page) => page.slug === slug);
  const page = guide[place];
  const named = (at: number): Neighbour => {
    const other = guide[at];
    return other ? { slug: other.slug, title: other.title } : null;
  };
  return page && { page, previous: named(place - 1), next: named(place + 1) };
}
