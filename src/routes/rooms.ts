import { Hono } from "hono";
import type { Env } from "../wire/context.ts";
import { described, openApi } from "../wire/described.ts";
import { account } from "./account.tsx";
import { analyses } from "./analyses.tsx";
import { analysesInUse } from "./analyses-in-use.tsx";
import { batches } from "./batch.ts";
import { batchSheets } from "./batch-sheet.ts";
import { blends } from "./blends.ts";
import { bodies } from "./bodies.tsx";
import { bucketAdditions } from "./bucket-additions.ts";
import { bucketChanges } from "./bucket-changes.ts";
import { bucketDirections } from "./bucket-directions.ts";
import { bucketReadings } from "./bucket-readings.ts";
import { bucketReports } from "./bucket-reports.ts";
import { bucketScan } from "./bucket-scan.ts";
import { bucketUses } from "./bucket-uses.ts";
import { buckets } from "./buckets.ts";
import { chemistry } from "./chemistry.ts";
import { colours } from "./colours.ts";
import { compare } from "./compare.ts";
import { coneEstimates } from "./cone-estimate.ts";
import { costs } from "./costs.ts";
import { dataSheets } from "./data-sheets.tsx";
import { discontinuations } from "./discontinuations.tsx";
import { events } from "./events.tsx";
import { families } from "./families.tsx";
import { feeds } from "./feeds.tsx";
import { firingAdditions } from "./firing-additions.ts";
import { firingReadings } from "./firing-readings.ts";
import { firings } from "./firings.tsx";
import { invites } from "./invites.tsx";
import { joining } from "./joining.tsx";
import { kilns } from "./kilns.tsx";
import { labels } from "./labels.ts";
import { library } from "./library.ts";
import { lotSheets } from "./lot-sheets.ts";
import { lots } from "./lots.tsx";
import { mailWish } from "./mail-wishes.ts";
import { materialGravities } from "./material-gravities.tsx";
import { materialNames } from "./material-names.tsx";
import { materials } from "./materials.tsx";
import { mixEnds } from "./mix-ends.ts";
import { mixLines } from "./mix-lines.ts";
import { mixes } from "./mixes.ts";
import { objections } from "./objections.ts";
import { offerAnswers } from "./offer-answers.ts";
import { offers } from "./offers.ts";
import { pages } from "./pages.tsx";
import { pairReviews } from "./pair-reviews.ts";
import { pairs } from "./pairs.ts";
import { people } from "./people.tsx";
import { photoColours } from "./photo-colours.ts";
import { photos } from "./photos.ts";
import { plans } from "./plans.ts";
import { powderChanges } from "./powder-changes.ts";
import { recalls } from "./recalls.ts";
import { recomputations } from "./recomputations.ts";
import { removals } from "./removals.tsx";
import { replacements } from "./replacements.ts";
import { restating } from "./restate.ts";
import { rounds } from "./rounds.ts";
import { session } from "./session.tsx";
import { shareLinks } from "./share-links.tsx";
import { shared } from "./shared.ts";
import { shelfPlans } from "./shelf-plan.ts";
import { shopping } from "./shopping.ts";
import { slurries } from "./slurry.ts";
import { stock } from "./stock.ts";
import { stockCounts } from "./stock-counts.ts";
import { studio } from "./studio.tsx";
import { supplierPrices } from "./supplier-prices.ts";
import { suppliers } from "./suppliers.tsx";
import { testFiles } from "./test-files.ts";
import { tests } from "./tests.ts";
import { threads } from "./threads.ts";
import { tiles } from "./tiles.ts";
import { trialPhotos } from "./trial-photos.ts";
import { trialPoints } from "./trial-points.ts";
import { trialRecipes } from "./trial-recipes.ts";
import { trialSheets } from "./trial-sheet.ts";
import { trialWithdrawals } from "./trial-withdrawals.ts";
import { trials } from "./trials.ts";
import { viewing } from "./viewing.ts";
import { waiting } from "./waiting.ts";
import { wall } from "./wall.ts";

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
  all.route("/", studio);
  all.route("/", invites);
  // Before the rooms whose addresses would take “removal” for something of theirs.
  all.route("/", removals);
  all.route("/", account);
  all.route("/", events);
  all.route("/", waiting);
  all.route("/", buckets);
  all.route("/", bucketChanges);
  for (const noun of [bucketReadings, bucketAdditions, bucketDirections, bucketReports, rounds])
    all.route("/", noun);
  for (const noun of [labels, bucketScan, bucketUses]) all.route("/", noun);
  all.route("/", mixes);
  all.route("/", mixLines);
  all.route("/", mixEnds);
  all.route("/", shareLinks);
  all.route("/", feeds);
  all.route("/", mailWish);
  all.route("/", shared);
  all.route("/", pages);
  all.route("/", lotSheets);
  all.route("/", stock);
  all.route("/", stockCounts);
  all.route("/", plans);
  all.route("/", shopping);
  all.route("/", recalls);
  all.route("/materials", materials);
  all.route("/materials", materialNames);
  all.route("/materials", analyses);
  all.route("/materials", analysesInUse);
  all.route("/materials", discontinuations);
  all.route("/materials", lots);
  all.route("/materials", replacements);
  all.route("/materials", materialGravities);
  all.route("/materials", dataSheets);
  all.route("/suppliers", suppliers);
  all.route("/suppliers", supplierPrices);
  all.route("/compare", compare);
  all.route("/bodies", bodies);
  all.route("/families", families);
  all.route("/firings", firings);
  all.route("/firings", firingReadings);
  all.route("/firings", firingAdditions);
  all.route("/kilns", kilns);
  all.route("/", offers);
  all.route("/", offerAnswers);
  all.route("/", costs);
  all.route("/recipes", library);
  all.route("/recipes", batchSheets);
  all.route("/chemistry", chemistry);
  all.route("/powder-changes", powderChanges);
  all.route("/recomputations", recomputations);
  all.route("/cone-estimate", coneEstimates);
  all.route("/slurry", slurries);
  all.route("/restate", restating);
  all.route("/", shelfPlans);
  all.route("/batch", batches);
  all.route("/blends", blends);
  for (const noun of [
    trials,
    trialSheets,
    trialPoints,
    trialRecipes,
    trialPhotos,
    trialWithdrawals,
  ])
    all.route("/trials", noun);
  all.route("/", threads);
  all.route("/", objections);
  // Before the tiles, one of which “sheet” would be taken for.
  all.route("/", wall);
  all.route("/", tiles);
  all.route("/", tests);
  all.route("/", testFiles);
  all.route("/", pairs);
  all.route("/", pairReviews);
  all.route("/", photos);
  all.route("/", viewing);
  all.route("/", photoColours);
  all.route("/", colours);
  return all;
}
