import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { labelSizes, placesOf } from "../../views/labels/sizes.ts";
import { addBucket } from "../mixes.ts";
import { approveAgain, openBucket } from "../opened.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

const base = "https://glazes.example";
const sheet = {
  signal: "danger",
  statements: ["Harmful if swallowed.", "Harmful to <skin>."],
  source: "an invented sheet",
};

let studio: TestStudio;
let id: string;
let slug: string;
beforeAll(async () => {
  studio = await openTestStudio({ PUBLIC_URL: `${base}/` });
  await stockShelf(studio);
  const lithium = { name: "Lithium carbonate", kind: "carbonate", formula: "Li2CO3" };
  await studio.send("manager", "/materials", {
    json: { ...lithium, hazards: ["soluble", "lithium"] },
  });
  await studio.send("manager", "/materials/whiting/data-sheets", {
    json: { ...sheet, signal: "warning", statements: ["Dusty."] },
  });
  ({ id, slug } = await openBucket(studio));
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

type Label = {
  address: string;
  mark: string;
  says: string;
  signal: string | null;
  statements: string[];
  hazards: string[];
  dissolves: boolean;
  keepsUntil: string | null;
  mixedAt: string | null;
  leaves: string[];
  sizes: { id: string; places: number }[];
};
const labelOf = (bucket = id, query = "") =>
  studio.json<Label>("author", `/buckets/${bucket}/label${query}`);
const pageOf = async (query = "", bucket = id, who: Who = "author") =>
  (await (await studio.send(who, `/buckets/${bucket}/label${query}`)).text()).replaceAll(
    "&#39;",
    "'",
  );
const labelsOn = (page: string) => page.split('class="label label-').length - 1;

describe("the label of a bucket", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 200],
    ["other member", 200],
    ["manager", 200],
  ])("answers the %s with %i", async (who, status) => {
    for (const accept of ["text/html", "application/json"])
      expect((await studio.send(who, `/buckets/${id}/label`, { accept })).status).toBe(status);
  });

  it("has what has to be known of it, and the address that its code opens", async () => {
    await approveAgain(studio, slug);
    const label = await labelOf();
    expect(label).toMatchObject({
      ...{ address: `${base}/b/${id}`, mark: "functional", says: "Functional", signal: "warning" },
      ...{ number: 1, atmosphere: "oxidation", cones: { low: "6", high: "6" }, keepsUntil: null },
      statements: ["Dusty."],
    });
    const page = await pageOf();
    // The end point of cone 6 at 60 °C an hour, as in the table that the cones' own test names.
    for (const says of ["Tall grey bucket", "Functional", "Cone 6, about 1222 °C", "oxidation"])
      expect(page).toContain(says);
    expect(page).toContain("Dusty.");
    expect(page).toContain("Safety data sheets: in the glaze room");
    expect(page).not.toMatch(/style=|<script>/);
  });

  it("says until when it keeps, whom to ask, and what dissolves", async () => {
    const lines: [string, string][] = [
      ["potash-feldspar", "90"],
      ["lithium-carbonate", "10"],
    ];
    const own = await openBucket(studio, { use: "decorative", lines });
    await studio.send("manager", `/buckets/${own.id}/directions`, {
      method: "PUT",
      json: { keepsMonths: 12, ask: "Ines <on> Tuesdays" },
    });
    const label = await labelOf(own.id);
    const [mixed, until] = [label.mixedAt ?? "", label.keepsUntil ?? ""];
    expect(Number(until.slice(0, 4)) - Number(mixed.slice(0, 4))).toBe(1);
    expect(until.slice(5, 7)).toBe(mixed.slice(5, 7));
    expect(label).toMatchObject({
      ...{ mark: "decorative", signal: null, dissolves: true, hazards: ["lithium", "soluble"] },
    });
    const page = await pageOf("", own.id);
    for (const says of [
      ...["Decorative only", "within 20 mm of it", "Ines &lt;on&gt; Tuesdays", "use by"],
      ...["Signal word not on record.", "lithium compounds", "never pour water off"],
    ])
      expect(page).toContain(says);
  });

  it("takes the gravest signal word and the newest sheets of its powders", async () => {
    const own = await publish(studio, {
      lines: [
        ["whiting", "50"],
        ["barium-carbonate", "50"],
      ],
    });
    const bucket = await addBucket(studio, own);
    await studio.send("manager", "/materials/barium-carbonate/data-sheets", { json: sheet });
    expect(await labelOf(bucket)).toMatchObject({
      ...{ mark: "test", signal: "danger" },
      statements: ["Dusty.", ...sheet.statements],
    });
    expect(await pageOf("", bucket)).toContain("Harmful to &lt;skin&gt;.");
  });

  it("prints as many as are asked for from a place on, and one sheet at most", async () => {
    expect(labelsOn(await pageOf())).toBe(1);
    const page = await pageOf("?size=a4-3x7&from=20&copies=2");
    expect([labelsOn(page), page.split("label-blank").length - 1]).toEqual([2, 19]);
    for (const [query, path] of [
      ["?size=a4-3x7&from=20&copies=3", "copies"],
      ["?size=a4&from=2", "from"],
      ["?size=a4-3x7&from=0", "from"],
      ["?size=a7", "size"],
      ["?copies=many", "copies"],
    ]) {
      const accept = "application/json";
      const answer = await studio.send("author", `/buckets/${id}/label${query}`, { accept });
      expect(answer.status).toBe(422);
      expect(await answer.json()).toMatchObject({ errors: [{ path }] });
      expect(await pageOf(query)).toContain(`href="#field-${path}"`);
    }
  });

  it("leaves the same to the code on every smaller paper, and never what has to be there", async () => {
    const { sizes } = await labelOf();
    expect(sizes.map((size) => size.places)).toEqual(labelSizes.map(placesOf));
    let before: string[] = [];
    for (const { id: size } of sizes) {
      const { leaves } = await labelOf(id, `?size=${size}`);
      expect(leaves.slice(0, before.length)).toEqual(before);
      before = leaves;
      const page = await pageOf(`?size=${size}`);
      for (const says of ["Tall grey bucket", "Functional", "Cone 6", "Revision 1", "Warning."])
        expect(page).toContain(says);
    }
    expect(before.length).toBeGreaterThan(0);
  });

  it("says not to use what is on hold", async () => {
    const hold = { method: "PUT", json: { is: "hold", why: "It smells." } };
    await studio.send("author", `/buckets/${id}/state`, hold);
    expect(await labelOf()).toMatchObject({ mark: "do not use", says: "Do not use" });
    const page = await pageOf("?size=a4-3x7");
    expect(page).toContain("Do not use");
    expect(page).not.toContain("Functional");
  });

  it("is not told to whoever may not know of the recipe", async () => {
    const bucket = await addBucket(studio, await publish(studio, { shownTo: "private" }));
    expect((await studio.send("other member", `/buckets/${bucket}/label`)).status).toBe(404);
  });

  it("waits, in words, for the address where the studio is reached", async () => {
    const own = await openTestStudio();
    await stockShelf(own);
    const bucket = await addBucket(own);
    const answer = await own.send("manager", `/buckets/${bucket}/label`);
    expect(answer.status).toBe(409);
    expect(await answer.text()).toContain("PUBLIC_URL");
    await own.close();
  });
});
