import type { Hono, MiddlewareHandler } from "hono";
import { z } from "zod";
import type { Env } from "./context.ts";

type Described = {
  /** One sentence: what the call does. */
  says: string;
  /** The schema that reads the body, the same for a form and for JSON. */
  body?: z.ZodType | undefined;
  query?: z.ZodObject | undefined;
  /** The status of success; a page or JSON at 200 where nothing is said. */
  status?: number | undefined;
};

const descriptions = new WeakMap<object, Described>();

/** Stands before a route's handler and tells /openapi.json what the route takes. */
export function described(route: Described): MiddlewareHandler<Env> {
  const handler: MiddlewareHandler<Env> = async (_, next) => next();
  descriptions.set(handler, route);
  return handler;
}

type Call = { method: string; path: string };

/** Every call that the app answers, described or not. */
export function callsOf(app: Hono<Env>): Call[] {
  const seen = new Map<string, Call>();
  for (const { method, path } of app.routes) {
    if (method === "ALL") continue;
    seen.set(`${method} ${path}`, { method, path });
  }
  return [...seen.values()];
}

/** The app's JSON in OpenAPI 3.1, from the schemas that its routes read with. */
export function openApi(app: Hono<Env>, about: { title: string; version: string }) {
  const paths: Record<string, Record<string, unknown>> = {};
  for (const { method, path, handler } of app.routes) {
    const route = descriptions.get(handler);
    if (!route) continue;
    const at = path.replace(/:(\w+)(\{[^}]*\})?/g, "{$1}");
    paths[at] = { ...paths[at], [method.toLowerCase()]: operation(route, at) };
  }
  return { openapi: "3.1.0", info: about, paths, components: { schemas: { Problem: problem } } };
}

function operation({ says, body, query, status = 200 }: Described, path: string) {
  const schema = body && jsonSchema(body);
  const named = [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => ({
    name,
    in: "path",
    required: true,
    schema: { type: "string" },
  }));
  const asked = query
    ? Object.entries(query.shape).map(([name, field]) => ({
        name,
        in: "query",
        schema: jsonSchema(field as z.ZodType),
      }))
    : [];
  const refusal = {
    content: { "application/problem+json": { schema: { $ref: "#/components/schemas/Problem" } } },
  };
  return {
    summary: says,
    ...(named.length + asked.length > 0 && { parameters: [...named, ...asked] }),
    ...(schema && {
      requestBody: {
        content: {
          "application/json": { schema },
          "application/x-www-form-urlencoded": { schema },
        },
      },
    }),
    responses: {
      [status]: { description: says, content: { "application/json": {}, "text/html": {} } },
      default: { description: "Refused: what is wrong, where, and what to do.", ...refusal },
    },
  };
}

const jsonSchema = (schema: z.ZodType) => {
  const { $schema: _, ...rest } = z.toJSONSchema(schema, { io: "input", unrepresentable: "any" });
  return rest;
};

const problem = {
  type: "object",
  required: ["type", "title", "status", "detail"],
  properties: {
    type: { type: "string" },
    title: { type: "string" },
    status: { type: "integer" },
    detail: { type: "string" },
    errors: {
      type: "array",
      items: {
        type: "object",
        required: ["path", "says"],
        properties: { path: { type: "string" }, says: { type: "string" } },
      },
    },
  },
};
