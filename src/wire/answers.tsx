import { accepts } from "hono/accepts";
import { html } from "hono/html";
import type { Child } from "hono/jsx";
import type { ContentfulStatusCode } from "hono/utils/http-status";
import { type Here, Layout } from "../../views/layout.tsx";
import { type PageReading, ReadingOf } from "../../views/parts/reading.ts";
import { listCalledIn } from "../db/names-in-region.ts";
import type { Ctx } from "./context.ts";
import { isJson } from "./media-types.ts";
import { stylesheet } from "./stylesheet.ts";
import { waitingFor } from "./waiting-counts.ts";

export type Page = {
  title: string;
  here: Here;
  notice?: string | undefined;
  /** Without the ways to other rooms, for a page that is shown to somebody who may read no other. */
  alone?: boolean | undefined;
};

/** JSON for who asks for it or speaks it; HTML for everybody else, a plain `*` included. */
export function wantsJson(c: Ctx): boolean {
  if (isJson(c.req.header("content-type"))) return true;
  const type = accepts(c, {
    header: "Accept",
    supports: ["text/html", "application/json", "application/problem+json"],
    default: "text/html",
  });
  return type !== "text/html";
}

/**
 * A view as a whole document, or bare where htmx asks for a part of the page.
 *
 * @param view is drawn within the reader's units and names, so it is given as a function.
 */
export async function page(
  c: Ctx,
  { title, here, notice, alone }: Page,
  view: () => Child,
  status: ContentfulStatusCode = 200,
): Promise<Response> {
  const reading = await pageReadingOf(c);
  const Drawn = () => <>{view()}</>;
  if (c.req.header("HX-Request-Type") === "partial") {
    const part = (
      <ReadingOf.Provider value={reading}>
        <Drawn />
      </ReadingOf.Provider>
    );
    return c.html(html`${part}`, status);
  }
  const { studio, viewer } = c.var;
  const waiting = await waitingFor(c);
  const document = (
    <ReadingOf.Provider value={reading}>
      <Layout
        title={title}
        studio={studio.name}
        viewer={viewer}
        here={here}
        waiting={waiting}
        notice={notice}
        alone={alone}
        theme={reading.theme}
        stylesheet={`/assets/${stylesheet.name}`}
      >
        <Drawn />
      </Layout>
    </ReadingOf.Provider>
  );
  return c.html(html`<!doctype html>${document}`, status);
}

/** How the page reads for whoever asks, with the names of their region where they chose one. */
async function pageReadingOf(c: Ctx): Promise<PageReading> {
  const { db, reading, studio, viewer } = c.var;
  const mayKnow = viewer !== undefined || studio.showsPublic;
  const called =
    reading.region !== "" && mayKnow ? await listCalledIn(db, reading.region) : new Map();
  return { ...reading, called, setAt: viewer ? "/account/settings" : "/reading" };
}

/** The one thing that was asked for, as JSON or as its page. */
export async function answer(
  c: Ctx,
  given: { json: () => unknown; page: Page; view: () => Child },
): Promise<Response> {
  return wantsJson(c) ? c.json(given.json() as object) : page(c, given.page, given.view);
}

/** Made: 201 with its JSON, or for a form on to its page. */
export function created(c: Ctx, location: string, json: unknown) {
  c.header("Location", location);
  return wantsJson(c) ? c.json(json as object, 201) : onTo(c, location);
}

/** Changed: its JSON, or for a form on to the page that shows it. */
export function changed(c: Ctx, location: string, json: unknown) {
  return wantsJson(c) ? c.json(json as object) : onTo(c, location);
}

/** On to another page. htmx would swap the answer to a redirect in place, so it is told to go. */
export function onTo(c: Ctx, location: string) {
  if (c.req.header("HX-Request") === "true") {
    c.header("HX-Location", location);
    return c.body(null, 204);
  }
  return c.redirect(location, 303);
}
