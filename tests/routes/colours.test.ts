import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { deltaE00, labOfLinear, linearOfSrgb } from "../../src/chem/colour.ts";
import { listEvents } from "../../src/db/events.ts";
import { tileColours } from "../../src/db/schema/index.ts";
import { pictureForm } from "../camera.ts";
import { fireTile } from "../evidence.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Colour = {
  id: string;
  lab: [number, number, number];
  from: string;
  for: string;
  photo: string | null;
  neutralLightness?: number;
  assumed?: boolean;
  errors?: { path: string; says: string }[];
};

type Colours = { instrument: Colour | null; camera: Colour | null };

describe("the colour of a tile", () => {
  let studio: TestStudio;
  let slug: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const send = async (who: Who, tile: string, json: object) => {
    const answer = await studio.send(who, `/tiles/${tile}/colours`, { json });
    return { status: answer.status, colour: (await answer.json()) as Colour };
  };
  const measured = { from: "instrument", lab: [52.1, -3.4, "11.25"] };
  const listed = (tile: string) =>
    studio.json<{ items: Colour[] }>("visitor", `/tiles/${tile}/colours`);
  const pageOf = async (who: Who, path: string) => (await studio.send(who, path)).text();

  /** A grey card on the left and a glaze on the right, under a lamp with a tint. */
  const hang = async (tile: string, card: string, glaze: string) => {
    const side = { width: 300, height: 400, channels: 3 as const };
    const bytes = await sharp({ create: { ...side, width: 600, background: glaze } })
      .composite([{ input: { create: { ...side, background: card } }, left: 0, top: 0 }])
      .png()
      .toBuffer();
    const form = pictureForm(bytes);
    const answer = await studio.send("author", `/tiles/${tile}/photos`, {
      form,
      accept: "application/json",
    });
    return ((await answer.json()) as { id: string }).id;
  };
  const places = { neutral: { x: 0.25, y: 0.5 }, spot: { x: 0.75, y: 0.5 } };

  it.each<[Who, number]>([
    ["visitor", 401],
    ["other member", 403],
    ["reviewer", 403],
    ["author", 201],
    ["manager", 201],
  ])("is put on record by who may change the tile: %s %i", async (who, status) => {
    const tile = await fireTile(studio, slug);
    expect((await send(who, tile, measured)).status).toBe(status);
    const { items } = await listed(tile);
    expect(items).toMatchObject(
      status === 201 ? [{ lab: [52.1, -3.4, 11.25], from: "instrument", photo: null }] : [],
    );
    const kinds = (await listEvents(studio.db, { subjectId: tile, limit: 9 })).map(
      ({ kind }) => kind,
    );
    expect(kinds.includes("colour added")).toBe(status === 201);
  });

  it("keeps what was read before, and the newest counts", async () => {
    const tile = await fireTile(studio, slug);
    await send("author", tile, measured);
    await send("author", tile, { ...measured, lab: [60, 0, 0] });
    expect((await listed(tile)).items.map(({ lab: [lightness] }) => lightness)).toEqual([60, 52.1]);
    const { colours } = await studio.json<{ colours: Colours }>("visitor", `/tiles/${tile}`);
    expect(colours).toMatchObject({ instrument: { lab: [60, 0, 0] }, camera: null });
  });

  it.each<[string, object, string]>([
    ["no source", { lab: [50, 0, 0] }, "from"],
    ["another source", { from: "eye", lab: [50, 0, 0] }, "from"],
    ["two figures", { from: "instrument", lab: [50, 0] }, "lab"],
    ["a lightness over white", { from: "instrument", lab: [101, 0, 0] }, "lab.0"],
    ["an a* that no eye sees", { from: "instrument", lab: [50, 161, 0] }, "lab.1"],
    ["a b* in words", { from: "instrument", lab: [50, 0, "blue"] }, "lab.2"],
    ["no picture", { from: "camera", ...places }, "photo"],
    ["a picture that is none", { from: "camera", photo: "x", ...places }, "photo"],
    ["a place outside", { from: "camera", photo: "x", ...places, spot: { x: 2, y: 0 } }, "spot.x"],
    [
      "a black grey card",
      { from: "camera", photo: "x", ...places, neutralLightness: 0 },
      "neutralLightness",
    ],
  ])("refuses %s by its field", async (_, json, path) => {
    const tile = await fireTile(studio, slug);
    const before = await studio.db.$count(tileColours);
    const { status, colour } = await send("author", tile, json);
    expect(status).toBe(422);
    expect(colour.errors).toMatchObject([{ path }]);
    expect(await studio.db.$count(tileColours)).toBe(before);
  });

  it("is not read of a tile that was withdrawn", async () => {
    const tile = await fireTile(studio, slug);
    await studio.send("author", `/tiles/${tile}/withdrawal`, { json: { why: "Another glaze." } });
    expect((await send("author", tile, measured)).status).toBe(409);
  });

  it("comes out of a picture the same whatever the lamp, and says what it is good for", async () => {
    const tile = await fireTile(studio, slug);
    const [white, warm] = [await hang(tile, "#808080", "#5d8a6a"), await warmLamp(tile)];
    const plain = await send("author", tile, { from: "camera", photo: white, ...places });
    const tinted = await send("author", tile, { from: "camera", photo: warm, ...places });
    expect(plain.status).toBe(201);
    expect(plain.colour).toMatchObject({
      from: "camera",
      for: "comparing, not measuring",
      photo: white,
      neutralLightness: 50,
      assumed: true,
    });
    const [one, other] = [labOf(plain.colour), labOf(tinted.colour)];
    expect(deltaE00(one, other)).toBeLessThan(1);
    const page = await pageOf("visitor", `/tiles/${tile}`);
    expect(page).toContain("camera: for comparing, not for measuring");
  });

  const labOf = ({ lab: [lightness, a, b] }: Colour) => ({ lightness, a, b });

  /** The same card and glaze with the red let through and the blue held back, in linear light. */
  const warmLamp = (tile: string) => {
    const lit = (hex: string) => {
      const channel = (at: number) => Number.parseInt(hex.slice(at, at + 2), 16) / 255;
      const toLinear = (v: number) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
      const toScreen = (v: number) => (v <= 0.0031308 ? v * 12.92 : 1.055 * v ** (1 / 2.4) - 0.055);
      const through = [1.3, 0.95, 0.6].map((share, at) =>
        Math.round(toScreen(toLinear(channel(1 + 2 * at)) * share) * 255),
      );
      return `#${through.map((value) => value.toString(16).padStart(2, "0")).join("")}`;
    };
    return hang(tile, lit("#808080"), lit("#5d8a6a"));
  };

  it("gives a neutral picture's glaze its own colour when the card's lightness is told", async () => {
    const tile = await fireTile(studio, slug);
    const photo = await hang(tile, "#808080", "#93a383");
    const card = labOfLinear(linearOfSrgb([128, 128, 128])).lightness;
    const { colour } = await send("author", tile, {
      ...{ from: "camera", photo, ...places },
      neutralLightness: card,
    });
    const truth = labOfLinear(linearOfSrgb([0x93, 0xa3, 0x83]));
    expect(deltaE00(labOf(colour), truth)).toBeLessThan(1);
    expect(colour.assumed).toBe(false);
  });

  it.each<[string, string, string, string]>([
    ["a burnt-out card", "#ffffff", "#5d8a6a", "neutral"],
    ["a black card", "#020202", "#5d8a6a", "neutral"],
    ["a coloured card", "#ff0000", "#5d8a6a", "neutral"],
    ["a highlight", "#808080", "#ffffff", "spot"],
    ["a glaze lighter than white", "#404040", "#c0c0c0", "spot"],
  ])("says why it cannot be read: %s", async (_, card, glaze, path) => {
    const tile = await fireTile(studio, slug);
    const photo = await hang(tile, card, glaze);
    const { status, colour } = await send("author", tile, { from: "camera", photo, ...places });
    expect(status).toBe(422);
    expect(colour.errors).toMatchObject([{ path }]);
    expect((await listed(tile)).items).toEqual([]);
  });

  it("can be pressed on the picture without a script: card, glaze, record", async () => {
    const tile = await fireTile(studio, slug);
    const photo = await hang(tile, "#808080", "#93a383");
    const at = `/tiles/${tile}/photos/${photo}/colour`;
    expect(await pageOf("author", `/tiles/${tile}/colours`)).toContain(`href="${at}"`);
    const first = await pageOf("author", at);
    expect(first).toContain("First: press the grey patch");
    expect(first).toMatch(/<input[^>]*type="image"[^>]*name="grey"/);
    const second = await pageOf("author", `${at}?grey.x=70&grey.y=93`);
    expect(second).toContain("Second: press the glaze");
    expect(second).toContain('name="neutral.x" value="0.25"');
    const third = await pageOf(
      "author",
      `${at}?neutral.x=0.25&neutral.y=0.5&glaze.x=210&glaze.y=93`,
    );
    expect(third).toContain('name="spot.x" type="text" value="0.75"');
    expect((await listed(tile)).items).toEqual([]);
    const form = {
      ...{ from: "camera", photo, "neutral.x": "0.25", "neutral.y": "0.5" },
      ...{ "spot.x": "0.75", "spot.y": "0.5", neutralLightness: "50" },
    };
    const kept = await studio.send("author", `/tiles/${tile}/colours`, { form });
    expect(kept.status).toBe(303);
    expect((await listed(tile)).items).toMatchObject([{ from: "camera", photo }]);
  });

  it("shows the form again with what was typed in it", async () => {
    const tile = await fireTile(studio, slug);
    const form = { from: "instrument", "lab.0": "152", "lab.1": "-3.4", "lab.2": "11" };
    const answer = await studio.send("author", `/tiles/${tile}/colours`, { form });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page).toContain('value="152"');
    expect(page).toContain('value="-3.4"');
    expect(page).toContain('href="#field-lab.0"');
  });

  it("is held against another tile of the same melt, and no other", async () => {
    const own = await publish(studio, {
      lines: [
        ["quartz", "40"],
        ["potash-feldspar", "60"],
      ],
    });
    const [one, other, foreign] = [
      await fireTile(studio, own),
      await fireTile(studio, own),
      await fireTile(studio, slug),
    ];
    // The first of the published pairs.
    await send("author", one, { from: "instrument", lab: [50, 2.6772, -79.7751] });
    await send("author", other, { from: "instrument", lab: [50, 0, -82.7485] });
    await send("author", foreign, measured);
    expect(await studio.json("visitor", `/tiles/${one}?against=${other}`)).toMatchObject({
      against: { tile: other, kind: "differs", deltaE00: 2.04, words: "plain" },
    });
    expect(await studio.json("visitor", `/tiles/${one}?against=${foreign}`)).toMatchObject({
      against: { kind: "not-among-them" },
    });
    const page = await pageOf("visitor", `/tiles/${one}?against=${other}`);
    expect(page).toMatch(/ΔE<sub>00<\/sub> 2\.04/);
    expect(page).toContain("plain");
    expect(page).not.toContain(`value="${foreign}"`);
  });

  it("of a private recipe's tile is told to nobody else", async () => {
    const hidden = await publish(studio, { shownTo: "private" });
    const tile = await fireTile(studio, hidden);
    await send("author", tile, measured);
    expect((await studio.send("other member", `/tiles/${tile}/colours`)).status).toBe(404);
    const shown = await fireTile(studio, slug);
    await send("author", shown, measured);
    expect(await pageOf("visitor", `/tiles/${shown}`)).not.toContain(tile);
  });
});
