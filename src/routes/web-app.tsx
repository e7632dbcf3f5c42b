import { Hono } from "hono";
import { Offline } from "../../views/pages/offline.tsx";
import { answer } from "../wire/answers.tsx";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";

export const webApp = new Hono<Env>();

/** How many recipes a browser keeps; `public/sw-recipes.js` keeps to it. */
const mostKept = 30;

webApp.get(
  "/manifest.webmanifest",
  described({
    says: "What a browser needs to put the studio among its apps (W3C, Web App Manifest)",
  }),
  (c) => c.body(JSON.stringify(manifestOf(c.var.studio.name)), 200, { "Content-Type": type }),
);

webApp.get(
  "/offline",
  described({ says: "What a browser keeps of the studio for when there is no network" }),
  (c) =>
    answer(c, {
      json: () => ({ keeps: "recipes that everybody may see", most: mostKept }),
      page: { title: "Kept for when there is no network", here: "none" },
      view: () => <Offline most={mostKept} />,
    }),
);

const type = "application/manifest+json; charset=utf-8";

const icon = (name: string, side: number, purpose: "any" | "maskable") => ({
  src: `/icons/${name}`,
  sizes: `${side}x${side}`,
  type: "image/png",
  purpose,
});

const manifestOf = (name: string) => ({
  id: "/",
  name,
  short_name: name.length > 12 ? "Glazes" : name,
  description: "The glaze library of the studio: recipes, tiles, buckets and the store room.",
  lang: "en",
  start_url: "/",
  scope: "/",
  display: "minimal-ui",
  theme_color: "#eaf0ea",
  background_color: "#eaf0ea",
  icons: [
    icon("icon-192.png", 192, "any"),
    icon("icon-512.png", 512, "any"),
    icon("maskable-512.png", 512, "maskable"),
  ],
});
