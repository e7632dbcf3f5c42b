import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { testPhotos, testReports } from "../../src/db/schema/index.ts";
import type { wholeTestJson } from "../../src/routes/test-json.ts";
import { mostReportBytes } from "../../src/work/reports.ts";
import { cameraJpeg, cutOff, notTaken, pictureForm } from "../camera.ts";
import { testTile } from "../evidence.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type TestJson = ReturnType<typeof wholeTestJson>;

/** The least that ends as a PDF does. */
const pdf = (says = "Demo report 1, invented") =>
  Buffer.from(`%PDF-1.4\n% ${says}\ntrailer << >>\nstartxref\n0\n%%EOF\n`, "latin1");

const sent = (bytes: Uint8Array, name = "report.pdf") => {
  const form = new FormData();
  form.set("report", new File([new Uint8Array(bytes)], name, { type: "application/pdf" }));
  return form;
};

describe("the files of a test", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const newTest = async (shownTo = "public") => {
    const slug = await publish(studio, { shownTo });
    return testTile(studio, slug, { kind: "acid" } as { tile: string; kind: string });
  };
  const post = (who: Who, path: string, form: FormData, accept = "application/json") =>
    studio.send(who, path, { form, accept });
  const read = (id: string) => studio.json<TestJson>("manager", `/tests/${id}`);

  const whoMay: [Who, number][] = [
    ["author", 201],
    ["manager", 201],
    ["other member", 403],
    ["reviewer", 403],
    ["visitor", 401],
  ];

  it.each(whoMay)(
    "lets who may withdraw the test put its report with it: %s %i",
    async (who, status) => {
      const id = await newTest();
      expect((await post(who, `/tests/${id}/report`, sent(pdf(who)))).status).toBe(status);
      expect((await read(id)).reports).toHaveLength(status === 201 ? 1 : 0);
    },
  );

  it.each(whoMay)("and pictures of the tile: %s %i", async (who, status) => {
    const id = await newTest();
    const form = pictureForm(await cameraJpeg({ shade: 1 }), "tile.jpg", { taken: "before" });
    expect((await post(who, `/tests/${id}/photos`, form)).status).toBe(status);
    expect((await read(id)).photos).toHaveLength(status === 201 ? 1 : 0);
  });

  it.each<[string, () => Uint8Array, number, RegExp]>([
    ["a text", () => notTaken.text, 415, /no PDF/],
    [
      "a page named .pdf",
      () => Buffer.from("<!doctype html><script>1</script>"),
      415,
      /a web page/,
    ],
    [
      "a page with a PDF's head below",
      () => Buffer.from("<html>%PDF-1.4 %%EOF"),
      415,
      /a web page/,
    ],
    ["a picture", () => Buffer.from("\x89PNG\r\n\x1a\n....", "latin1"), 415, /is a picture/],
    ["a PDF that was cut off", () => cutOff(pdf()), 422, /has no end/],
    ["an empty file", () => new Uint8Array(), 422, /is empty/],
    ["one over 20 MB", () => Buffer.alloc(mostReportBytes + 1, pdf()), 413, /over 20 MB/],
    ["one far over 20 MB", () => Buffer.alloc(mostReportBytes + 200_000, pdf()), 413, /over 20 MB/],
  ])("refuses %s as a report, in words, and keeps nothing", async (_, bytes, status, says) => {
    const id = await newTest();
    const before = await studio.db.$count(testReports);
    const answer = await post("author", `/tests/${id}/report`, sent(bytes()), "text/html");
    expect(answer.status).toBe(status);
    expect(await answer.text()).toMatch(says);
    expect(await studio.db.$count(testReports)).toBe(before);
  });

  it("gives a report back as it came, to be saved and not shown", async () => {
    const id = await newTest();
    const answer = await post("author", `/tests/${id}/report`, sent(pdf()));
    const { href, sha256, size } = (await answer.json()) as TestJson["reports"][number];
    expect([href, size]).toEqual([`/tests/${id}/report/${sha256}`, pdf().length]);
    const given = await studio.send("visitor", href);
    expect(Buffer.from(await given.arrayBuffer())).toEqual(pdf());
    expect(Object.fromEntries(given.headers)).toMatchObject({
      "content-type": "application/pdf",
      "content-disposition": expect.stringMatching(
        /^attachment; filename="report-[0-9a-f]{12}.pdf"$/,
      ),
      "x-content-type-options": "nosniff",
      "cache-control": "private, immutable, max-age=31536000",
    });
    expect((await post("author", `/tests/${id}/report`, sent(pdf()))).status).toBe(200);
    expect((await read(id)).reports).toHaveLength(1);
    expect(await (await studio.send("visitor", `/tests/${id}`)).text()).toContain(`href="${href}"`);
    const events = await listEvents(studio.db, { subjectId: id, limit: 10 });
    expect(events.map(({ kind }) => kind)).toEqual(["test added", "report added"]);
    const other = await newTest();
    expect((await studio.send("visitor", `/tests/${other}/report/${sha256}`)).status).toBe(404);
    for (const nonsense of ["7", "0".repeat(64), `${sha256}0`])
      expect((await studio.send("author", `/tests/${id}/report/${nonsense}`)).status).toBe(404);
    expect((await studio.send("author", `/tests/7/report/${sha256}`)).status).toBe(404);
  });

  it("does not let on that files of a private recipe's test are there", async () => {
    const id = await newTest("private");
    const put = await post("author", `/tests/${id}/report`, sent(pdf()));
    const { href } = (await put.json()) as TestJson["reports"][number];
    const form = pictureForm(await cameraJpeg({ shade: 7 }), "tile.jpg", { taken: "after" });
    const hung = await post("author", `/tests/${id}/photos`, form);
    const { sha256 } = (await hung.json()) as TestJson["photos"][number];
    for (const path of [href, `/photos/${sha256}/200`]) {
      for (const who of ["other member", "reviewer", "visitor"] as const)
        expect((await studio.send(who, path)).status, `${who} ${path}`).toBe(404);
      for (const who of ["author", "manager"] as const)
        expect((await studio.send(who, path)).status, `${who} ${path}`).toBe(200);
    }
    expect((await post("other member", `/tests/${id}/report`, sent(pdf()))).status).toBe(404);
    expect((await post("other member", `/tests/${id}/photos`, form)).status).toBe(404);
  });

  it("shows before and after side by side, each picture once", async () => {
    const id = await newTest();
    const shot = async (taken: string, shade: number) =>
      post(
        "author",
        `/tests/${id}/photos`,
        pictureForm(await cameraJpeg({ shade }), "tile.jpg", { taken, alt: `Seen ${taken}` }),
      );
    expect((await shot("before", 3)).status).toBe(201);
    expect((await shot("after", 4)).status).toBe(201);
    expect((await shot("after", 4)).status).toBe(200);
    const { photos } = await read(id);
    expect(photos.map(({ taken, alt }) => [taken, alt])).toEqual([
      ["before", "Seen before"],
      ["after", "Seen after"],
    ]);
    const page = await (await studio.send("visitor", `/tests/${id}`)).text();
    expect(page.indexOf("Before the test")).toBeLessThan(page.indexOf("After the test"));
    for (const { sha256 } of photos) expect(page).toContain(`/photos/${sha256}/600`);
    const kinds = (await listEvents(studio.db, { subjectId: id, limit: 10 })).map(
      ({ kind }) => kind,
    );
    expect(kinds).toEqual(["test added", "test photo added", "test photo added"]);
  });

  it.each<[string, () => Promise<FormData> | FormData, number, RegExp]>([
    ["a text", () => pictureForm(notTaken.text, "x.jpg", { taken: "after" }), 415, /no picture/],
    ["an SVG", () => pictureForm(notTaken.svg, "x.jpg", { taken: "after" }), 415, /SVG drawing/],
    [
      "one cut off",
      async () => pictureForm(cutOff(await cameraJpeg()), "x.jpg", { taken: "after" }),
      422,
      /cut off/,
    ],
    ["one without when", async () => pictureForm(await cameraJpeg()), 422, /One of: before, after/],
    ["no file", () => new FormData(), 422, /This is needed/],
  ])("refuses %s as a picture, in words", async (_, form, status, says) => {
    const id = await newTest();
    const before = await studio.db.$count(testPhotos);
    const answer = await post("author", `/tests/${id}/photos`, await form(), "text/html");
    expect(answer.status).toBe(status);
    expect(await answer.text()).toMatch(says);
    expect(await studio.db.$count(testPhotos)).toBe(before);
  });

  it("puts nothing with a test that was withdrawn", async () => {
    const id = await newTest();
    await studio.send("author", `/tests/${id}/withdrawal`, { json: { why: "Wrong tile." } });
    expect((await post("author", `/tests/${id}/report`, sent(pdf()))).status).toBe(409);
    const form = pictureForm(await cameraJpeg(), "tile.jpg", { taken: "after" });
    expect((await post("author", `/tests/${id}/photos`, form)).status).toBe(409);
  });

  it("lets a manager remove a picture that hangs beside a test only", async () => {
    const id = await newTest();
    const form = pictureForm(await cameraJpeg({ shade: 9 }), "tile.jpg", { taken: "after" });
    const { sha256 } = (await (await post("author", `/tests/${id}/photos`, form)).json()) as {
      sha256: string;
    };
    const removal = { json: { why: "A face in it." } };
    const answer = await studio.send("manager", `/photos/${sha256}/removal`, removal);
    expect(answer.status).toBeLessThan(400);
    expect((await studio.send("author", `/photos/${sha256}/200`)).status).toBe(410);
    expect((await read(id)).photos).toMatchObject([{ removed: true, at: null }]);
    expect((await post("author", `/tests/${id}/photos`, form)).status).toBe(409);
    const record = await (await studio.send("manager", "/events")).text();
    expect(record).toContain("removed a picture of a test of");
  });
});
