import { Hono } from "hono";
import { About } from "../../views/pages/about.tsx";
import { CautionsPage } from "../../views/pages/cautions.tsx";
import { cautions } from "../../views/pages/cautions-words.ts";
import { answer } from "../wire/answers.tsx";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";

export const pages = new Hono<Env>();

pages.get("/cautions", described({ says: "What everybody in a glaze room is careful with" }), (c) =>
  answer(c, {
    json: () => ({ cautions }),
    page: { title: "What to be careful with", here: "none" },
    view: () => <CautionsPage cautions={cautions} />,
  }),
);

pages.get("/about", described({ says: "What the program is and what it runs on" }), (c) => {
  const engine = c.var.config.databaseUrl ? "postgres" : "embedded";
  return answer(c, {
    json: () => ({
      program: "Common Bucket",
      studio: c.var.studio.name,
      engine,
      licence: "AGPL-3.0-or-later",
      source: "Ask the studio for the source that it runs.",
    }),
    page: { title: "About this library", here: "none" },
    view: () => <About studio={c.var.studio.name} engine={engine} />,
  });
});
