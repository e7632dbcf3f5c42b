import { Hono } from "hono";
import { ImportForm } from "../../views/imports/form.tsx";
import { ImportPlanPage } from "../../views/imports/plan.tsx";
import { bringsOf, faultsOfPlan, pathOfName } from "../db/import-faults.ts";
import type { ImportPlan } from "../db/import-plan-types.ts";
import { planImport } from "../db/import-planning.ts";
import { type Before, findBefore, takeIn } from "../db/import-taking.ts";
import type { FileRead } from "../db/import-types.ts";
import { findImport } from "../db/imports.ts";
import { answer, created } from "../wire/answers.tsx";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { managerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, refuse } from "../wire/problems.tsx";
import { importJson, planJson, wordOf } from "./import-answer.ts";
import { readImportFile } from "./import-reading.ts";
import { type ImportAsked, importDescribed, readImportRequest } from "./import-request.ts";

export const importTaking = new Hono<Env>();

/** A file up to this stays in the page while names are matched; a larger one is sent once more. */
const mostKept = 192 * 1024;

const title = "Take in recipes or analyses";

importTaking.post(
  "/import",
  described({
    says: "Take in a file of recipes, analyses or materials, or another studio's export; with dryRun only say what would happen",
    body: importDescribed,
    status: 201,
  }),
  managerRequired,
  async (c) => {
    const sent = await readImportRequest(c);
    if (sent.kind === "refused") return faultyFile(c, sent);
    const { asked: given } = sent;
    const read = await readImportFile(given.bytes);
    if (read.kind === "faulty") return faultyFile(c, { status: 422, faults: read.faults });
    const { db, now: at } = c.var;
    const { file } = read;
    const { matches, fileName, digest, again, leaveOutRefused } = given;
    const other = given.lookedAt !== undefined && given.lookedAt !== digest;
    if (given.dryRun || other) {
      const plan = await planImport(db, { file, matches, fileName, at });
      const shown = { given, file, plan, before: await findBefore(db, digest) };
      if (!other || given.dryRun) return shownPlan(c, shown);
      const says =
        "This is another file than the one that was looked at. Here is what it would bring.";
      return refusedPlan(c, shown, [{ path: "file", says }]);
    }
    const taken = await takeIn(db, {
      ...actOf(c),
      ...{ file, matches, fileName, digest, again, leaveOutRefused },
    });
    switch (taken.kind) {
      case "taken-in": {
        const found = await findImport(db, taken.id);
        return created(c, `/imports/${taken.id}`, found && importJson(found));
      }
      case "moved":
        return refuse(c, {
          status: 409,
          title: "Somebody was first",
          detail:
            "Somebody took one of these names at this moment. Nothing was written: send it again.",
        });
      case "taken-before": {
        const { plan, before } = taken;
        const days = before.map((each) => each.at.toISOString().slice(0, 10)).join(", ");
        const says = `This very file was taken in before (${days}). Say that you mean to take it in again.`;
        return refusedPlan(c, { given, file, plan, before }, [{ path: "again", says }]);
      }
      case "not-ready": {
        const shown = { given, file, plan: taken.plan, before: await findBefore(db, digest) };
        return refusedPlan(c, shown, taken.faults);
      }
      case "nothing-new": {
        const shown = { given, file, plan: taken.plan, before: await findBefore(db, digest) };
        const says = "Nothing in this file is new here, or all of it is left out.";
        return refusedPlan(c, shown, [{ path: "", says }]);
      }
    }
  },
);

function faultyFile(c: Ctx, { status, faults }: { status: 413 | 415 | 422; faults: Fault[] }) {
  const shown = faults.slice(0, 100);
  const view = () =>
    ImportForm({
      faults: shown.map(({ path, says }) => ({
        path: "file",
        says: path && path !== "file" ? `${path}: ${says}` : says,
      })),
    });
  return faulty(c, { status, faults: shown }, { page: { title, here: "library" }, view });
}

type Shown = { given: ImportAsked; file: FileRead; plan: ImportPlan; before: readonly Before[] };

const jsonOf = ({ given, file, plan, before }: Shown) =>
  planJson({
    file: { name: given.fileName, digest: given.digest, kind: file.kind },
    plan,
    before,
    leaveOutRefused: given.leaveOutRefused,
  });

/** The page of a plan: names to match, the lines, and the file where it is small enough to stay in it. */
function planView({ given, file, plan, before }: Shown, faults: readonly Fault[]) {
  const { bytes, fileName, digest, again, leaveOutRefused } = given;
  const kept = bytes.length <= mostKept ? Buffer.from(bytes).toString("base64") : null;
  const placeOf = new Map(plan.names.map(({ name }, place) => [pathOfName(name), `is.${place}`]));
  return {
    page: { title: "What this file would bring", here: "library" } as const,
    view: () =>
      ImportPlanPage({
        file: { name: fileName, digest, kind: file.kind, kept },
        names: plan.names.map((entry) => ({ ...entry, is: wordOf(entry.chosen) })),
        plan,
        brings: bringsOf(plan),
        before,
        again,
        leaveOutRefused,
        refusedMany: faultsOfPlan(plan, { leaveOutRefused: false }).some(
          ({ path }) => !path.startsWith("matches."),
        ),
        faults: faults.map(({ path, says }) => {
          const field = placeOf.get(path) ?? (path === "file" || path === "again" ? path : "");
          return { path: field, says: field === "" && path !== "" ? `${path}: ${says}` : says };
        }),
      }),
  };
}

const shownPlan = (c: Ctx, shown: Shown) => {
  const { page: where, view } = planView(shown, []);
  return answer(c, { json: () => ({ dryRun: true, ...jsonOf(shown) }), page: where, view });
};

function refusedPlan(c: Ctx, shown: Shown, all: readonly Fault[]) {
  const faults = all.slice(0, 200);
  const [first] = faults;
  return refuse(
    c,
    {
      status: 422,
      title: "Nothing was taken in yet",
      detail:
        all.length === 1 && first
          ? first.says
          : `${all.length} things are in the way; nothing was written. Each is named with its place.`,
      errors: faults,
      more: { plan: jsonOf(shown) },
    },
    planView(shown, faults),
  );
}
