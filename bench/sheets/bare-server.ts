import { serve } from "@hono/node-server";
import { Hono } from "hono";
import postgres from "postgres";
import type { Statement } from "./heard.ts";

/** A page as it was once answered, and the statements that it was made of. */
export type KeptPage = {
  path: string;
  asked: Record<string, string>;
  headers: Record<string, string>;
  body: string;
  statements: Statement[];
};

export type Given = { url: string; port: number; pages: KeptPage[] };

const kindOf = ({ accept, "cache-control": caches = "" }: Record<string, string>): string =>
  `${accept} ${caches}`;

/**
 * A server of hono and postgres.js alone, in a process of its own: for each page that it is given it
 * asks the statements, all at once, and sends the bytes that it has.
 */
process.once("message", ({ url, port, pages }: Given) => {
  const client = postgres(url, { max: 10, onnotice: () => {} });
  const app = new Hono();
  for (const path of new Set(pages.map((page) => page.path))) {
    const kinds = new Map(
      pages
        .filter((page) => page.path === path)
        .map((page) => [kindOf(page.asked), { ...page, bytes: Buffer.from(page.body) }]),
    );
    app.get(path, async (c) => {
      const page = kinds.get(kindOf(c.req.header()));
      if (!page) return c.notFound();
      await Promise.all(
        page.statements.map(({ text, values, prepare }) =>
          client.unsafe(text, values as never[], { prepare }),
        ),
      );
      return c.body(page.bytes, 200, page.headers);
    });
  }
  app.get("/ready", (c) => c.text("ready"));
  serve({ fetch: app.fetch, port, hostname: "127.0.0.1" });
});

// Where the bench is killed, nobody is left to stop this.
process.once("disconnect", () => process.exit());
