import type { Found } from "./found.ts";

/** Who looks: a visitor, a member who has recipes of her own, or the manager. */
export const readers = { visitor: undefined, member: "rukmini", manager: "ines" } as const;
export type Reader = keyof typeof readers;

export type Visit = {
  who: Reader;
  at: string;
  /** The form that is sent from there as it stands; what answers is what is looked at. */
  sent?: string;
  /** 200 where nothing is said. */
  status?: number;
};

const as = (who: Reader, ...at: string[]): Visit[] => at.map((path) => ({ who, at: path }));
const visitor = (...at: string[]) => as("visitor", ...at);
const member = (...at: string[]) => as("member", ...at);
const manager = (...at: string[]) => as("manager", ...at);

/** Calls that answer no page of their own, and what they answer. */
export const notPages: Readonly<Record<string, string>> = {
  "/": "leads on to the library",
  "/openapi.json": "JSON only",
  "/manifest.webmanifest": "JSON only, for browsers",
  "/feeds/:token": "a feed",
  "/export": "a zip",
  "/photos/:sha256/:width{200|600|1200|full}": "a picture",
  "/handouts/:token/photos/:sha256/:width{200|600|1200|full}": "a picture",
  "/tests/:id/report/:sha256": "a laboratory's file",
  "/firings/:id/readings": "leads on to its place on the firing's page",
  "/recipes/:slug/notes": "leads on to their place on the recipe's page",
  "/recipes/:slug/reviews": "leads on to their place on the recipe's page",
  "/recipes/:slug/tests": "leads on to their place on the recipe's page",
  "/tiles/:id/colours": "leads on to their place on the tile's page",
  "/recipes/:slug/news": "a part that the recipe's page puts in itself",
};

/** Every page that the studio has, by the call that answers it: where to look at it, and as whom. */
export const pagesOf = (found: Found): Readonly<Record<string, readonly Visit[]>> => ({
  ...rooms(found),
  ...ofLibrary(found),
  ...ofShelf(found),
  ...ofKiln(found),
  ...ofBuckets(found),
  ...workedOut(found),
});

type Pages = (found: Found) => Readonly<Record<string, readonly Visit[]>>;

const rooms: Pages = ({ person, imported, invite, recovery, shared }) => ({
  "/session/new": [...visitor("/session/new?next=/account"), ...member("/session/new")],
  "/people/new": visitor(invite),
  "/recovery/:token": visitor(recovery),
  "/people": manager("/people"),
  "/people/:id": manager(`/people/${person}`),
  "/people/:which/removal": manager(`/people/${person}/removal`),
  "/studio": manager("/studio"),
  "/studio/about": manager("/studio/about"),
  "/studio/data": manager("/studio/data"),
  "/imports": manager("/imports"),
  "/imports/new": manager("/imports/new"),
  "/imports/:id": manager(`/imports/${imported}`),
  "/account": member("/account"),
  "/account/settings": member("/account/settings"),
  "/reading": visitor("/reading"),
  "/events": manager("/events"),
  "/searches": member("/searches"),
  "/waiting": [...member("/waiting"), ...manager("/waiting")],
  "/shared/:token": visitor(shared),
  "/cautions": visitor("/cautions"),
  "/about": visitor("/about"),
  "/offline": visitor("/offline"),
  "/guide": visitor("/guide"),
  "/guide/names": visitor("/guide/names"),
  "/guide/:page": visitor("/guide/cones"),
  "/start": visitor("/start", "/start?making=mug-or-bowl"),
});

const ofLibrary: Pages = ({ handout, note, offer, picture, pair, tile, photo, test }) => ({
  "/recipes": [
    ...visitor("/recipes", "/recipes?q=nothing-is-called-this"),
    ...manager("/recipes?q=green"),
  ],
  "/recipes/new": member("/recipes/new"),
  "/recipes/:slug": [
    ...visitor("/recipes/slack-water", "/recipes/ebb-green", "/recipes/common-tern"),
    ...member("/recipes/slack-water"),
    ...manager("/recipes/ebb-green"),
  ],
  "/recipes/:slug/batch": visitor("/recipes/slack-water/batch"),
  "/recipes/:slug/cost": member("/recipes/slack-water/cost?gravity=1.46"),
  "/recipes/:slug/revisions": visitor("/recipes/slack-water/revisions"),
  "/recipes/:slug/revisions/new": member("/recipes/slack-water/revisions/new"),
  "/recipes/:slug/revisions/:number": visitor("/recipes/slack-water/revisions/1"),
  "/recipes/:slug/revisions/:number/numbers/:name": visitor(
    "/recipes/slack-water/revisions/1/numbers/unity.SiO2",
  ),
  "/recipes/:slug/forks/new": member("/recipes/ebb-green/forks/new"),
  "/recipes/:slug/history": visitor("/recipes/ebb-green/history"),
  // A visitor's question is given up sooner, on a machine that is busy too soon.
  "/recipes/:slug/moves": [
    ...visitor("/recipes/slack-water/moves"),
    ...member("/recipes/slack-water/moves?set=SiO2:3.6"),
  ],
  "/recipes/:slug/nearest": visitor("/recipes/slack-water/nearest"),
  "/recipes/:slug/offers": [
    ...visitor("/recipes/ebb-green/offers"),
    ...manager("/recipes/ebb-green/offers"),
  ],
  "/recipes/:slug/offers/new": member("/recipes/ebb-green/offers/new"),
  "/offers/:id": [...visitor(`/offers/${offer}`), ...manager(`/offers/${offer}`)],
  "/notes/:id": [...visitor(`/notes/${note}`), ...member(`/notes/${note}`)],
  "/notes/:which/removal": manager(`/notes/${note}/removal`),
  "/photos/:which/removal": manager(`/photos/${picture}/removal`),
  "/compare": visitor("/compare", "/compare?left=slack-water@2&right=ebb-green"),
  "/recipes/:slug/handout": [
    ...visitor("/recipes/slack-water/handout"),
    ...member("/recipes/slack-water/handout"),
  ],
  "/families/:slug/handout": visitor("/families/the-terns/handout"),
  "/handouts/:token": visitor(handout),
  "/families": visitor("/families"),
  "/families/new": member("/families/new"),
  "/families/:slug": [...visitor("/families/the-terns"), ...manager("/families/the-terns")],
  "/families/:slug/edit": manager("/families/the-terns/edit"),
  "/pairs": visitor("/pairs"),
  "/pairs/new": member("/pairs/new"),
  "/pairs/:id": [...visitor(`/pairs/${pair}`), ...manager(`/pairs/${pair}`)],
  "/tiles": visitor("/tiles"),
  "/tiles/sheet": visitor(`/tiles/sheet?tiles=${tile}`),
  "/tiles/:id": [...visitor(`/tiles/${tile}`), ...manager(`/tiles/${tile}`)],
  "/tiles/:id/photos/:photo": visitor(`/tiles/${tile}/photos/${photo}`),
  "/tiles/:id/photos/:photo/colour": manager(`/tiles/${tile}/photos/${photo}/colour`),
  "/recipes/:slug/tiles/new": member("/recipes/slack-water/tiles/new"),
  "/recipes/:slug/tests/new": member("/recipes/slack-water/tests/new"),
  "/tests/:id": [...visitor(`/tests/${test}`), ...member(`/tests/${test}`)],
  "/powder-changes": visitor("/powder-changes"),
  "/recomputations": visitor("/recomputations"),
});

const ofShelf: Pages = ({ lot, recall, analysis }) => ({
  "/materials": [...visitor("/materials"), ...manager("/materials")],
  "/materials/new": member("/materials/new"),
  "/materials/:slug": [
    ...visitor("/materials/quartz", "/materials/barium-carbonate"),
    ...manager("/materials/quartz"),
  ],
  "/materials/:slug/names/new": member("/materials/quartz/names/new"),
  "/materials/:slug/analyses": visitor("/materials/quartz/analyses"),
  "/materials/:slug/analyses/new": member("/materials/quartz/analyses/new"),
  "/materials/:slug/analyses/:id": visitor(`/materials/quartz/analyses/${analysis}`),
  "/materials/:slug/analysis-in-use": manager("/materials/quartz/analysis-in-use"),
  "/materials/:slug/discontinuation": manager("/materials/quartz/discontinuation"),
  "/materials/:slug/replacement": member("/materials/barium-carbonate/replacement"),
  "/materials/:slug/stock-line": manager("/materials/quartz/stock-line"),
  "/materials/:slug/lots": member("/materials/quartz/lots"),
  "/materials/:slug/lots/new": manager("/materials/quartz/lots/new"),
  "/materials/:slug/gravities/new": manager("/materials/quartz/gravities/new"),
  "/materials/:slug/data-sheets/new": manager("/materials/quartz/data-sheets/new"),
  "/lots/:id": [...member(`/lots/${lot}`), ...manager(`/lots/${lot}`)],
  "/lots/:id/uses/new": member(`/lots/${lot}/uses/new`),
  "/stock": [...member("/stock"), ...manager("/stock")],
  "/stock/count": member("/stock/count"),
  "/recalls": member("/recalls"),
  "/recalls/new": manager(`/recalls/new?lot=${lot}`),
  "/recalls/:id": [...member(`/recalls/${recall}`), ...manager(`/recalls/${recall}`)],
  "/plans": [...member("/plans"), ...manager("/plans?recipe=slack-water&revision=3")],
  "/shopping": member("/shopping?low=on", "/shopping?budget=20"),
  "/suppliers": manager("/suppliers"),
  "/suppliers/:slug": [
    ...member("/suppliers/fen-road-minerals"),
    ...manager("/suppliers/fen-road-minerals"),
  ],
  "/suppliers/:slug/packs/new": manager("/suppliers/fen-road-minerals/packs/new"),
  "/suppliers/:slug/price-list": manager("/suppliers/fen-road-minerals/price-list"),
  "/suppliers/:slug/terms": manager("/suppliers/fen-road-minerals/terms"),
});

const ofKiln: Pages = ({ firing, trial }) => ({
  "/bodies": visitor("/bodies"),
  "/bodies/new": member("/bodies/new"),
  "/bodies/:slug": visitor("/bodies/loft-stoneware", "/bodies/heron-porcelain"),
  "/bodies/:slug/sheets/new": manager("/bodies/loft-stoneware/sheets/new"),
  "/firings": visitor("/firings"),
  "/firings/new": member("/firings/new"),
  "/firings/:id": [...visitor(`/firings/${firing}`), ...manager(`/firings/${firing}`)],
  "/kilns": [...visitor("/kilns"), ...member("/kilns")],
  "/kilns/:slug": visitor("/kilns/gannet"),
  "/trials": member("/trials"),
  "/trials/:id": member(`/trials/${trial}`),
  "/trials/:id/sheet": member(`/trials/${trial}/sheet`),
  "/trials/:id/points/:n": member(`/trials/${trial}/points/1`),
});

const ofBuckets: Pages = ({ bucket, mix, openMix, report }) => ({
  "/buckets": [...member("/buckets"), ...manager("/buckets")],
  "/buckets/new": manager("/buckets/new?recipe=slack-water&revision=3"),
  "/buckets/:id": [...member(`/buckets/${bucket}`), ...manager(`/buckets/${bucket}`)],
  "/buckets/:id/readings": member(`/buckets/${bucket}/readings`),
  "/buckets/:id/directions": manager(`/buckets/${bucket}/directions`),
  "/buckets/:id/reports": member(`/buckets/${bucket}/reports`),
  "/buckets/:id/cost": member(`/buckets/${bucket}/cost`),
  "/buckets/:id/label": member(`/buckets/${bucket}/label`),
  "/bucket-reports/:id/answer": manager(`/bucket-reports/${report}/answer`),
  "/b/:id": [...visitor(`/b/${bucket}`), ...member(`/b/${bucket}`)],
  "/uses": member("/uses"),
  "/rounds": member("/rounds"),
  "/mixes/:id": [...member(`/mixes/${openMix}`), ...manager(`/mixes/${openMix}`, `/mixes/${mix}`)],
});

const workedOut: Pages = () => ({
  "/chemistry": visitor("/chemistry"),
  "/cone-estimate": visitor("/cone-estimate"),
  "/slurry": visitor("/slurry"),
  "/restate": [
    ...visitor("/restate"),
    { who: "member", at: "/restate?recipe=slack-water@2", sent: "main form[method=post]" },
  ],
  "/shelf-plan": visitor("/shelf-plan"),
  "/shelf-reach": visitor("/shelf-reach"),
  "/batch": visitor("/batch"),
  "/blends": visitor("/blends"),
});

/** Pages that refuse: what is not there, not theirs, and forms that come back. */
export const refusals = ({ bucket, firing }: Found): readonly Visit[] => [
  { who: "visitor", at: "/nowhere", status: 404 },
  { who: "visitor", at: "/account", status: 401 },
  { who: "member", at: "/people", status: 403 },
  { who: "member", at: "/recipes/ebb-green/revisions/new", status: 403 },
  { who: "member", at: "/recipes/nowhere", status: 404 },
  { who: "visitor", at: "/session/new", sent: "main form[action='/session']", status: 422 },
  { who: "visitor", at: "/slurry", sent: "main form[method=post]", status: 422 },
  { who: "visitor", at: "/cone-estimate", sent: "main form[method=post]", status: 422 },
  { who: "member", at: "/recipes/new", sent: "main form[method=post]", status: 422 },
  { who: "member", at: "/firings/new", sent: "main form[method=post]", status: 422 },
  { who: "member", at: "/bodies/new", sent: "main form[method=post]", status: 422 },
  { who: "member", at: "/materials/new", sent: "main form[method=post]", status: 422 },
  { who: "member", at: "/recipes/slack-water", sent: "form[action$='/notes']", status: 422 },
  { who: "manager", at: `/firings/${firing}`, sent: "form[action$='/witness']", status: 422 },
  { who: "manager", at: "/buckets/new", sent: "main form[method=post]", status: 422 },
  { who: "manager", at: `/buckets/${bucket}`, sent: "form[action$='/readings']", status: 422 },
  { who: "manager", at: "/materials/quartz/lots/new", sent: "main form[method=post]", status: 422 },
];
