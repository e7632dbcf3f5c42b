import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { photos, pictureBytes, pictures } from "../../src/db/schema/index.ts";
import { cameraJpeg, pictureForm } from "../camera.ts";
import { fireTile } from "../evidence.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, origin, type TestStudio } from "../studio.ts";
import { badUploads, movingWebp } from "../uploads.ts";

type Problem = { title: string; detail: string; errors?: { path: string; says: string }[] };

const bad = await badUploads();

describe("what is sent in place of a picture", () => {
  let studio: TestStudio;
  let tile: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    tile = await fireTile(studio, await publish(studio));
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const send = (form: FormData, accept = "application/json") =>
    studio.send("author", `/tiles/${tile}/photos`, { form, accept });
  const stored = async () => [
    await studio.db.$count(pictures),
    await studio.db.$count(pictureBytes),
    await studio.db.$count(photos),
  ];
  /** Refused in words, nothing kept, and the next good one is taken. */
  const refusedWith = async (status: number, sending: () => Promise<Response> | Response) => {
    const before = await stored();
    const answer = await sending();
    expect(answer.status).toBe(status);
    expect(answer.headers.get("content-type")).toContain("application/problem+json");
    const problem = (await answer.json()) as Problem;
    expect(problem.detail).toMatch(/^[A-Z].*\.$/s);
    expect(await stored()).toEqual(before);
    return problem;
  };
  let shade = 0;
  const aGoodOneWorks = async () => {
    shade += 1;
    const form = pictureForm(await cameraJpeg({ width: 64, height: 48, shade }));
    expect((await send(form)).status).toBe(201);
  };

  it("is tried in many ways", () => {
    expect(new Set(bad.map(({ what }) => what)).size).toBeGreaterThanOrEqual(25);
  });

  it.each(bad)("is refused in words: $what", async ({ bytes, name, status, says }) => {
    const problem = await refusedWith(status, () => send(pictureForm(bytes, name)));
    expect(problem.errors).toMatchObject([{ path: "photo" }]);
    expect(problem.detail).toMatch(says);
    await aGoodOneWorks();
  });

  it("is refused on the page with the description still there", async () => {
    const [, text] = bad;
    const form = pictureForm(text?.bytes ?? new Uint8Array(), "a.jpg", { alt: "Breaks brown" });
    const answer = await send(form, "text/html");
    expect(answer.status).toBe(415);
    const page = await answer.text();
    expect(page).toContain('href="#field-photo"');
    expect(page).toContain('value="Breaks brown"');
  });

  it("is refused where it is over 20 MB", async () => {
    const large = Buffer.concat([await cameraJpeg(), Buffer.alloc(20 * 1024 * 1024)]);
    const { detail } = await refusedWith(413, () => send(pictureForm(large)));
    expect(detail).toContain("20 MB");
    await aGoodOneWorks();
  });

  it.each<[string, (bytes: Uint8Array<ArrayBuffer>) => FormData]>([
    [
      "under another name",
      (bytes) => {
        const form = new FormData();
        form.set("picture", new File([bytes], "tile.jpg"));
        return form;
      },
    ],
    [
      "twice",
      (bytes) => {
        const form = pictureForm(bytes);
        form.append("photo", new File([bytes], "other.jpg"));
        return form;
      },
    ],
    [
      "as text",
      () => {
        const form = new FormData();
        form.set("photo", "tile.jpg");
        return form;
      },
    ],
    ["beside a field that is none", (bytes) => pictureForm(bytes, "tile.jpg", { width: "9" })],
    [
      "with a description too long",
      (bytes) => pictureForm(bytes, "t.jpg", { alt: "x".repeat(501) }),
    ],
    ["not at all", () => new FormData()],
  ])("is refused where it comes %s", async (_, formOf) => {
    const bytes = new Uint8Array(await cameraJpeg({ width: 64, height: 48 }));
    await refusedWith(422, () => send(formOf(bytes)));
    await aGoodOneWorks();
  });

  it.each<[string, string]>([
    [
      "cut off in the middle of the form",
      `--x\r\nContent-Disposition: form-data; name="photo"; filename="a.jpg"\r\n\r\nhalf`,
    ],
    ["without a boundary in it", "nothing of the kind"],
  ])("is refused where the form is %s", async (_, body) => {
    const headers = {
      ...{ cookie: studio.cookies.author, origin, accept: "application/json" },
      "content-type": "multipart/form-data; boundary=x",
    };
    const path = `${origin}/tiles/${tile}/photos`;
    await refusedWith(422, () => studio.app.request(path, { method: "POST", headers, body }));
    await aGoodOneWorks();
  });

  it.each([
    "../../../../etc/passwd.jpg",
    "C:\\windows\\tile.jpg",
    "tile.jpg\0.html",
    "<script>alert(1)</script>.jpg",
    `${"x".repeat(5000)}.jpg`,
    "",
  ])(
    "is taken by its bytes, whatever it is called, and its name is forgotten: %j",
    async (name) => {
      shade += 1;
      const answer = await send(
        pictureForm(await cameraJpeg({ width: 64, height: 48, shade }), name === "" ? " " : name),
      );
      expect(answer.status).toBe(201);
      const text = await answer.text();
      expect(text).not.toMatch(/passwd|windows|html|script|xxxx/);
    },
  );

  it("is kept without what hides in it: a page in a comment, an archive behind the picture", async () => {
    const jpeg = await cameraJpeg({ width: 64, height: 48, shade: 90 });
    const page = Buffer.from("<script>alert(1)</script>", "latin1");
    const comment = Buffer.concat([Buffer.from([0xff, 0xfe, 0, page.length + 2]), page]);
    const archive = Buffer.from("PK\x03\x04 and a letter", "latin1");
    const hidden = Buffer.concat([jpeg.subarray(0, 2), comment, jpeg.subarray(2), archive]);
    const answer = await send(pictureForm(hidden));
    expect(answer.status).toBe(201);
    const { at } = (await answer.json()) as { at: string };
    const kept = Buffer.from(await (await studio.send("visitor", at)).arrayBuffer());
    expect(kept.toString("latin1")).not.toMatch(/script|and a letter/);
  });

  it("stands still where it moved: the first picture of it is kept", async () => {
    const answer = await send(pictureForm(await movingWebp(), "a.webp"));
    expect(answer.status).toBe(201);
    expect(await answer.json()).toMatchObject({ width: 60, height: 40 });
  });
});
