import { Hono } from "hono";
import { z } from "zod";
import { StartAnswer } from "../../views/start/answer.tsx";
import { leftOutSays, type Making, makings } from "../../views/start/makings.ts";
import { Question } from "../../views/start/question.tsx";
import type { Answered } from "../../views/start/types.ts";
import type { Cone } from "../chem/cones.ts";
import { listBodies } from "../db/bodies.ts";
import { listStock } from "../db/bucket-stock.ts";
import { countLeftOut, listApproved, usualCone } from "../db/front-desk.ts";
import { isFor, usualBody } from "../db/front-desk-tiles.ts";
import { answer } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { line } from "../wire/fields.ts";
import { readerRequired } from "../wire/permissions.ts";
import { faulty } from "../wire/problems.tsx";
import { cone } from "../wire/recipe-body.ts";
import { fromReplica } from "../wire/replica.ts";
import { chooseGlazes } from "./front-desk-glazes.ts";

export const frontDesk = new Hono<Env>();

const keys = makings.map(({ key }) => key) as [string, ...string[]];

const asked = z.object({
  making: z.enum(keys, { error: `One of: ${keys.join(", ")}.` }).optional(),
  cone: cone.optional(),
  body: line(80).optional(),
});

/** Where nothing at all is approved yet, so that a page can be shown: what most studios fire. */
const firstCone: Cone = "6";

frontDesk.get(
  "/",
  described({ says: "Which glazes may be used on what somebody is making", query: asked }),
  readerRequired,
  fromReplica(async (c) => {
    const given = Object.entries(c.req.query()).filter(([, value]) => value !== "");
    const read = check(asked, Object.fromEntries(given));
    if (read.kind === "refused") return faulty(c, read);
    const making = makings.find(({ key }) => key === read.value.making);
    if (!making)
      return answer(c, {
        json: () => ({ makings }),
        page: { title: "What are you making?", here: "library" },
        view: () => Question(),
      });
    const found = await answerFor(c, { ...read.value, making });
    if (!found) {
      const says = "No body has this address. Choose one of the studio's.";
      return faulty(c, { faults: [{ path: "body", says }] });
    }
    return answer(c, {
      json: () => frontDeskJson(found),
      page: { title: `Glazes for: ${making.name.toLowerCase()}`, here: "library" },
      view: () => StartAnswer({ answered: found }),
    });
  }),
);

type Asked = { making: Making; cone?: Cone | undefined; body?: string | undefined };

async function answerFor(c: Ctx, given: Asked): Promise<Answered | undefined> {
  const { db, viewer: reader, now } = c.var;
  const { food } = given.making;
  // The buckets first: to read them settles what their standings rest on.
  const stock = reader ? await listStock(db, { reader, now }) : null;
  const cone =
    given.cone ?? (await usualCone(db, { reader, now, stock: stock ?? [] })) ?? firstCone;
  const approved = await listApproved(db, { reader, now, cone, food });
  const bodies = await listBodies(db);
  const body =
    given.body === undefined
      ? await usualBody(db, { among: bodies, cone, reader })
      : bodies.find(({ slug }) => slug === given.body);
  if (given.body !== undefined && !body) return undefined;
  const { inStock, others, shown } = await chooseGlazes(db, {
    ...{ approved, stock, food, cone, reader },
    body: body?.slug,
  });
  return {
    making: given.making,
    cone,
    body: body
      ? {
          ...{ slug: body.slug, name: body.name, cones: body.sheet.cones },
          fits: isFor(body.sheet.cones, cone),
        }
      : null,
    bodies: bodies.map(({ slug, name }) => ({ slug, name })),
    inStock,
    approved: others,
    leftOut: await countLeftOut(db, { reader, now, cone, food, shown }),
  };
}

const frontDeskJson = ({ leftOut, ...found }: Answered) => ({
  ...found,
  leftOut: leftOut.map((each) => ({ ...each, says: leftOutSays(each) })),
});
