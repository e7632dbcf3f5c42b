import { Hono } from "hono";
import { z } from "zod";
import { findGuidePage, guide } from "../../views/guide/guide.ts";
import { GuideNames } from "../../views/guide/names.tsx";
import { GuideContents, GuidePageView } from "../../views/guide/page.tsx";
import { listGlossary } from "../db/glossary.ts";
import { listRegions } from "../db/names-in-region.ts";
import { answer } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { line } from "../wire/fields.ts";
import { readerRequired } from "../wire/permissions.ts";
import { faulty, notFound } from "../wire/problems.tsx";
import { fromReplica } from "../wire/replica.ts";

export const guidePages = new Hono<Env>();

guidePages.get("/", described({ says: "The pages of the guide, in order" }), (c) =>
  answer(c, {
    json: () => ({ items: guide.map(({ slug, title, short }) => ({ slug, title, short })) }),
    page: { title: "Guide", here: "none" },
    view: () => <GuideContents />,
  }),
);

const asked = z.object({ region: line(60).optional() });

guidePages.get(
  "/names",
  described({ says: "What the studio's powders are called where", query: asked }),
  readerRequired,
  fromReplica(async (c) => {
    const given = c.req.query("region") || undefined;
    const read = check(asked, { region: given });
    if (read.kind === "refused") return faulty(c, read);
    const { region } = read.value;
    const items = await listGlossary(c.var.db, { region });
    const regions = await listRegions(c.var.db);
    return answer(c, {
      json: () => ({ regions, items }),
      page: { title: "Names of powders by region", here: "none" },
      view: () => <GuideNames items={items} regions={regions} region={region} />,
    });
  }),
);

guidePages.get("/:page", described({ says: "A page of the guide" }), async (c) => {
  const found = findGuidePage(c.req.param("page"));
  if (!found) return notFound(c);
  const { page, previous, next } = found;
  return answer(c, {
    json: () => ({ ...page, previous, next }),
    page: { title: page.title, here: "none" },
    view: () => <GuidePageView {...found} />,
  });
});
