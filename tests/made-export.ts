import { halves, pictureForm } from "./camera.ts";
import { bringEvidence, testTile } from "./evidence.ts";
import { buy, openMix, weighAll } from "./mixes.ts";
import { publish, revision, stockShelf } from "./shelf.ts";
import { openTestStudio, type TestStudio } from "./studio.ts";

/**
 * A small studio with a picture, a laboratory's report, a fork, a removed note, a mix, and a
 * functional approval by a reviewer who has left since.
 */
export async function openSmallStudio(): Promise<TestStudio> {
  const studio = await openTestStudio();
  const send = async (...asked: Parameters<TestStudio["send"]>) => {
    const answer = await studio.send(...asked);
    if (!answer.ok) throw new Error(`${asked[1]}: ${answer.status} ${await answer.text()}`);
    return answer.status === 204 ? {} : ((await answer.json()) as Record<string, unknown>);
  };
  await stockShelf(studio);
  const slug = await publish(studio, { different: { use: "functional" } });
  const { tile } = await bringEvidence(studio, slug);
  await send("author", `/tiles/${tile}/photos`, {
    form: pictureForm(await halves(60, 40).png().toBuffer(), "tile.png", { alt: "a tile" }),
    accept: "application/json",
  });
  const leach = await testTile(studio, slug, {
    tile,
    kind: "leach",
    laboratory: "Quay Laboratory",
    results: [{ element: "Pb", qualifier: "<", value: "0.001", unit: "mg/l" }],
  });
  const report = new FormData();
  const pdf = Buffer.from("%PDF-1.7\n1 0 obj\n<<>>\nendobj\ntrailer\n<<>>\n%%EOF\n");
  report.set("report", new File([pdf], "report.pdf", { type: "application/pdf" }));
  await send("author", `/tests/${leach}/report`, { form: report, accept: "application/json" });
  const review = { verdict: "approve", for: "functional", reasons: "All that it needs is there." };
  await send("reviewer", `/recipes/${slug}/reviews`, { json: review });
  await studio.json("author", `/recipes/${slug}`);

  const { slug: fork } = await send("other member", `/recipes/${slug}/forks`, {
    json: { name: "Ebb Green" },
  });
  await send("other member", `/recipes/${fork}/revisions`, {
    json: { ...revision({ message: "again" }), basedOn: 1 },
  });
  const note = await send("author", `/recipes/${slug}/notes`, { json: { text: "Sieve it 🏺." } });
  await send("other member", `/notes/${note.id}/replies`, { json: { text: "Twice." } });
  const gone = await send("other member", `/recipes/${slug}/notes`, {
    json: { text: "Asked of." },
  });
  const why = { method: "PUT", json: { why: "Asked for." } };
  await send("manager", `/notes/${gone.id}/removal`, why);
  await buy(studio, "quartz");
  await weighAll(studio, await openMix(studio, slug));
  await send("author", `/recipes/${slug}/revisions/1/links`, { json: {} });
  await send("manager", `/people/${studio.ids.reviewer}/removal`, why);
  if (studio.logged.length > 0) throw new Error(studio.logged.join("\n"));
  return studio;
}
