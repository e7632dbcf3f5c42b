import { accepts } from "hono/accepts";
import { html } from "hono/html";
import type { Child } from "hono/jsx";
import type { ContentfulStatusCode } from "hono/utils/http-status";
import { type Here, Layout } from "../../views/layout.tsx";
import type { Ctx } from "./context.ts";
import { isJson } from "./media-types.ts";
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

/** A view as a whole document, or bare where htmx asks for a part of the page. */
export async function page(
  c: Ctx,
  { title, here, notice, alone }: Page,
  view: Child,
  status: ContentfulStatusCode = 200,
): Promise<Response> {
  if (c.req.header("HX-Request-Type") === "partial") return c.html(html`${view}`, status);
  const { studio, viewer } = c.var;
  const waiting = await waitingFor(c);
  const document = (
    <Layout
      title={title}
      studio={studio.name}
      viewer={viewer}
      here={here}
      waiting={waiting}
      notice={notice}
      alone={alone}
    >
      {view}
    </Layout>
  );
  return c.html(html`<!doctype html>${document}`, status);
}

/** The one thing that was asked for, as JSON or as its page. */
export async function answer(
  c: Ctx,
  given: { json: () => unknown; page: Page; view: () => Child },
): Promise<Response> {
  return wantsJson(c) ? c.json(given.json() as object) : page(c, given.page, given.view());
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
