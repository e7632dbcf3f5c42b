import { Decimal } from "decimal.js";
import { listBuckets } from "../db/buckets.ts";
import { addColour } from "../db/colours.ts";
import { findStudio, setStudio } from "../db/studios.ts";
import { addTile } from "../db/tiles.ts";
import { type Entry, entry, known } from "./diary.ts";
import { type DemoProof, demoColours, demoProofs, demoTolerance } from "./proofs.ts";

/** What the instrument said of some tiles, and the proof tiles of the buckets. */
export const proofEntries = (): Entry[] => [
  entry("2026-07-18T09:00:00Z", async ({ db, ids }, at) => {
    const studio = await findStudio(db);
    const colourTolerance = new Decimal(demoTolerance);
    await setStudio(db, { ...studio, colourTolerance, by: known(ids, "ines"), at });
  }),
  ...demoColours.map(({ tile, at: when, by, lab: [lightness, a, b] }) =>
    entry(when, async ({ db, ids, tileIds }, at) => {
      const lab = { lightness, a, b };
      const act = { by: known(ids, by), at };
      await addColour(db, { tileId: known(tileIds, tile), from: "instrument", lab, ...act });
    }),
  ),
  ...demoProofs.map((proof) => entry(`${proof.firedOn}T19:00:00Z`, prove(proof))),
];

const prove =
  ({ of, firedOn, by, remark, gravity, lab: read }: DemoProof): Entry["happens"] =>
  async ({ db, ids, recipeIds, bodyIds }, at) => {
    const act = { by: known(ids, by), at };
    const reader = { id: act.by, role: "manager" } as const;
    const { items } = await listBuckets(db, { reader, now: at, limit: 100 });
    const bucket = items.find(({ name }) => name === of.name);
    if (!bucket) throw new Error(`${of.name} is not filled yet`);
    const clay = "Loft stoneware";
    const added = await addTile(db, {
      ...{ recipeId: known(recipeIds, of.glaze), number: of.number, ...act },
      ...{ cone: "6", clay, firedOn, remark, bisqueCone: "04", bucketId: bucket.id },
      body: { id: known(bodyIds, clay), name: clay },
      ...{ application: "dipped", coats: 1, transparency: "clear", movement: "stays put" },
      seconds: new Decimal(3),
      specificGravity: new Decimal(gravity),
    });
    if (added.kind !== "added") throw new Error(`${firedOn}: ${added.kind}`);
    if (!read) return;
    const [lightness, a, b] = read;
    const lab = { lightness, a, b };
    await addColour(db, { tileId: added.id, from: "instrument", lab, ...act });
  };
