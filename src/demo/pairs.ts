import type { Use } from "../chem/chemistry.ts";
import type { Cone } from "../chem/cones.ts";
import type { Who } from "./people.ts";
import type { Clay } from "./tiles.ts";

type Laid = { glaze: string; number: number };

/** A glaze laid over another, with the tile of the two and what a reviewer said. */
export type DemoPair = {
  over: Laid;
  under: Laid;
  at: string;
  by: Who;
  about: string;
  tile: {
    cone: Cone;
    clay: Clay;
    firing: string;
    at: string;
    by: Who;
    place: string;
    remark: string;
  };
  review: { at: string; by: Who; for: Use; reasons: string };
};

export const demoPairs: readonly DemoPair[] = [
  {
    over: { glaze: "Arctic Tern", number: 2 },
    under: { glaze: "Black Tern", number: 1 },
    at: "2026-08-14T17:30:00Z",
    by: "sefton",
    about: "Black two seconds, dry to the touch, then white one second over the upper third.",
    tile: {
      cone: "6",
      clay: "Loft stoneware",
      firing: "Gannet 2026-08-15",
      at: "2026-08-16T19:20:00Z",
      by: "sefton",
      place: "middle shelf",
      remark: "White breaks into grey veils over the black; crept 4 mm, well clear of the foot.",
    },
    review: {
      at: "2026-08-19T16:00:00Z",
      by: "tam",
      for: "decorative",
      reasons:
        "Handsome on the outside of a vase. Nothing of the two together was tested for food.",
    },
  },
];
