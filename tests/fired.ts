import { Decimal } from "decimal.js";
import { addBody } from "../src/db/body-adding.ts";
import { addFiring } from "../src/db/firing-adding.ts";
import type { FiringKind } from "../src/db/firings.ts";
import { addKiln } from "../src/db/kilns.ts";
import type { TestStudio } from "./studio.ts";

const at = new Date("2026-02-02T10:00:00Z");

/** A dense stoneware for cones 5 to 7. @returns its address. */
export async function putBody({ db, ids }: TestStudio, name = "Loft stoneware") {
  const sheet = {
    cones: { low: "5", high: "7" },
    absorption: { percent: new Decimal("1.8"), source: "the supplier's sheet, invented" },
    expansion: null,
    colour: "buff",
    about: "",
  } as const;
  const added = await addBody(db, { name, sheet, by: ids.manager, at });
  if (added.kind !== "added") throw new Error(`${name}: ${added.kind}`);
  return added.slug;
}

let kilns = 0;

/** A firing of a kiln of its own that brought witness cone 6 down and left 7 up. @returns its id. */
export async function putFiring({ db, ids }: TestStudio, kind: FiringKind = "oxidation") {
  kilns += 1;
  const kiln = await addKiln(db, { name: `Gannet ${kilns}`, about: "", by: ids.manager, at });
  if (kiln.kind !== "added") throw new Error(kiln.kind);
  return addFiring(db, {
    kilnId: kiln.id,
    kind,
    cone: "6",
    startedAt: new Date("2026-02-21T07:30:00Z"),
    programme: [],
    witness: [
      { cone: "6", bendDegrees: 90, place: "top shelf" },
      { cone: "7", bendDegrees: 20, place: "" },
    ],
    remark: "",
    by: ids.manager,
    at,
  });
}
