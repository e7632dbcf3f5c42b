import { sql } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

const tables = [
  "analyses",
  "analysis_oxides",
  "analyses_in_use",
  "discontinuations",
  "revisions",
  "revision_lines",
  "withdrawals",
  "notes",
  "tiles",
  "tile_withdrawals",
  "trial_result_withdrawals",
  "body_sheets",
  "firings",
  "witness_cones",
  "pictures",
  "photos",
  "mixes",
  "mix_lines",
  "mix_ticks",
  "mix_tick_undoings",
  "mix_ends",
  "mix_plans",
  "mix_plan_ends",
  "stock_moves",
  "stock_lines",
  "recalls",
  "recall_closings",
  "packs",
  "supplier_terms",
  "material_gravities",
  "data_sheets",
  "bucket_readings",
  "bucket_additions",
  "bucket_directions",
  "bucket_reports",
  "bucket_report_answers",
  "bucket_uses",
  "bucket_use_undoings",
  "handout_revisions",
  "imports",
  "imported_things",
  "import_withdrawals",
  "events",
  "note_texts",
  "picture_bytes",
];

describe("records", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    const slug = await publish(studio);
    await studio.send("author", `/recipes/${slug}/notes`, { json: { text: "Sieve it twice." } });
  });
  afterAll(() => studio.close());

  const refusal = (statement: string) =>
    studio.db.execute(sql.raw(statement)).then(
      () => "nothing refused it",
      (error) => String(error.cause ?? error),
    );

  it.each(tables)("%s cannot be emptied", async (table) => {
    expect(await refusal(`truncate ${table} cascade`)).toMatch(
      /is append-only|can only be blanked/,
    );
  });

  it.each([
    "update revisions set message = 'something else'",
    "delete from revisions",
    "update revision_lines set amount = 1",
    "delete from revision_lines",
    "update analyses set source = 'x'",
    "delete from analysis_oxides",
    "delete from analyses_in_use",
    "update notes set anchor = 'whole'",
    "delete from note_texts",
    "update note_texts set text = 'other words'",
    "update events set kind = 'x'",
  ])("refuses: %s", async (statement) => {
    expect(await refusal(statement)).toMatch(/is append-only|can only be blanked/);
  });

  it.each([
    [
      "an amount that is no number",
      "revision_lines_amount_weighable",
      "insert into revision_lines select revision_id, 60, part, material_id, analysis_id, 'NaN' from revision_lines limit 1",
    ],
    [
      "an amount of nothing",
      "revision_lines_amount_weighable",
      "insert into revision_lines select revision_id, 60, part, material_id, analysis_id, 0 from revision_lines limit 1",
    ],
    [
      "a base line without analysis",
      "revision_lines_base_is_analysed",
      "insert into revision_lines select revision_id, 60, 'base', material_id, null, 1 from revision_lines limit 1",
    ],
    [
      "another material's analysis",
      "revision_lines_analysis_of_this_material",
      "insert into revision_lines select l.revision_id, 60, l.part, m.id, l.analysis_id, 1 from revision_lines l, materials m where m.id <> l.material_id limit 1",
    ],
  ])("refuses %s by the rule's name", async (_, rule, statement) => {
    expect(await refusal(statement)).toContain(rule);
  });
});
