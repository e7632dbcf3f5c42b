import { Decimal } from "decimal.js";
import sharp from "sharp";
import type { Ledger } from "./ledger.ts";
import type { Person, Role } from "./person.ts";

const powders = {
  "Potash feldspar": "K2O·Al2O3·6SiO2",
  Whiting: "CaCO3",
  Quartz: "SiO2",
  Kaolin: "Al2O3·2SiO2·2H2O",
  "Red iron oxide": "Fe2O3",
} as const;

const slugs = ["potash-feldspar", "whiting", "quartz", "kaolin", "red-iron-oxide"] as const;

/** What stands in the studio before anybody is let in. */
export type Standing = { body: string; kiln: string; pictures: Blob[] };

/** The first manager joins and lays down powders, bags, a body and a kiln. */
export async function openStudio(
  manager: Person,
  { invite, actors, ledger }: { invite: string; actors: number; ledger: Ledger },
): Promise<Standing> {
  if (!(await manager.join(invite, "Marta Quill", "manager"))) throw new Error("nobody can join");
  const make = async (path: string, json: unknown) => {
    const made = await manager.send(path, { json });
    if (made.status !== 201) throw new Error(`${made.what}: ${made.status} ${made.text}`);
    return made.json as { id: string; slug: string };
  };
  for (const [name, formula] of Object.entries(powders))
    await make("/materials", { name, kind: "mineral", formula });
  await make("/suppliers", { name: "Quayside Ceramics" });
  for (let place = 0; place < Math.max(10, actors); place += 1) {
    const material = slugs[place % slugs.length] ?? "quartz";
    const pack = { packGrams: "5000", packPrice: "9.50", currency: "GBP" };
    const grams = new Decimal(50_000).plus(new Decimal(place).div(8));
    const lot = {
      supplier: "quayside-ceramics",
      ...pack,
      grams: grams.toFixed(),
      mark: `L-${place}`,
    };
    const { id } = await make(`/materials/${material}/lots`, lot);
    const keeper = place % 3 === 0 ? place % actors : null;
    ledger.lots.set(id, { id, material, left: grams, counts: [], moves: 0, keeper });
  }
  const clay = { name: "Loft stoneware", cones: { low: "5", high: "7" } };
  const { slug: body } = await make("/bodies", clay);
  const { slug: kiln } = await make("/kilns", { name: "Gannet" });
  return { body, kiln, pictures: await drawPictures() };
}

/** A link that somebody can join with. */
export async function inviteFor(manager: Person, role: Role): Promise<string | undefined> {
  const made = await manager.send("/invites", { json: { role } });
  return manager.traffic.expect(made, 201) ? String(made.json.link) : undefined;
}

/** Small pictures, a few, each with its own bytes. */
function drawPictures(): Promise<Blob[]> {
  const colours = ["#456b52", "#7c3f2a", "#2f4a6d", "#c9b88a", "#1d1d1d", "#8d9aa3"];
  return Promise.all(
    colours.map(async (background, place) => {
      const size = { width: 320 + place, height: 240, channels: 3 as const, background };
      const jpeg = await sharp({ create: size }).jpeg().toBuffer();
      return new Blob([new Uint8Array(jpeg)], { type: "image/jpeg" });
    }),
  );
}
