import { Hono } from "hono";
import type { Env } from "../wire/context.ts";
import { described, openApi } from "../wire/described.ts";
import { account } from "./account.tsx";
import { analyses } from "./analyses.tsx";
import { analysesInUse } from "./analyses-in-use.tsx";
import { bodies } from "./bodies.tsx";
import { bucketChanges } from "./bucket-changes.ts";
import { buckets } from "./buckets.ts";
import { chemistry } from "./chemistry.ts";
import { compare } from "./compare.ts";
import { coneEstimates } from "./cone-estimate.ts";
import { discontinuations } from "./discontinuations.tsx";
import { events } from "./events.tsx";
import { invites } from "./invites.tsx";
import { joining } from "./joining.tsx";
import { library } from "./library.ts";
import { lots } from "./lots.tsx";
import { materialNames } from "./material-names.tsx";
import { materials } from "./materials.tsx";
import { pages } from "./pages.tsx";
import { people } from "./people.tsx";
import { photos } from "./photos.ts";
import { powderChanges } from "./powder-changes.ts";
import { recomputations } from "./recomputations.ts";
import { removals } from "./removals.tsx";
import { session } from "./session.tsx";
import { slurries } from "./slurry.ts";
import { suppliers } from "./suppliers.tsx";
import { threads } from "./threads.ts";
import { tiles } from "./tiles.ts";
import { waiting } from "./waiting.ts";

/** Every room of the studio at its addresses. */
export function rooms(app: Hono<Env>): Hono<Env> {
  const all = new Hono<Env>();
  all.get("/", (c) => c.redirect("/recipes", 302));
  all.get("/openapi.json", described({ says: "This description" }), (c) =>
    c.json(openApi(app, { title: "Common Bucket", version: "0.1.0" })),
  );
  all.route("/", session);
  all.route("/", joining);
  all.route("/", people);
  all.route("/", invites);
  // Before the rooms whose addresses would take “removal” for something of theirs.
  all.route("/", removals);
  all.route("/", account);
  all.route("/", events);
  all.route("/", waiting);
  all.route("/", buckets);
  all.route("/", bucketChanges);
  all.route("/", pages);
  all.route("/materials", materials);
  all.route("/materials", materialNames);
  all.route("/materials", analyses);
  all.route("/materials", analysesInUse);
  all.route("/materials", discontinuations);
  all.route("/materials", lots);
  all.route("/suppliers", suppliers);
  all.route("/compare", compare);
  all.route("/bodies", bodies);
  all.route("/recipes", library);
  all.route("/chemistry", chemistry);
  all.route("/powder-changes", powderChanges);
  all.route("/recomputations", recomputations);
  all.route("/cone-estimate", coneEstimates);
  all.route("/slurry", slurries);
  all.route("/", threads);
  all.route("/", tiles);
  all.route("/", photos);
  return all;
}
