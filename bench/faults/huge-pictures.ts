import { Buffer } from "node:buffer";
import sharp from "sharp";
import { cameraJpeg, cutOff, halves, hugePng, pictureForm } from "../../tests/camera.ts";
import { fireTile } from "../../tests/evidence.ts";
import { resized } from "../../tests/uploads.ts";
import { startApp } from "../sheets/app.ts";
import { onEachEngine } from "./sheets/engines.ts";
import { promised } from "./sheets/promises.ts";
import { inWords, openStudio } from "./sheets/studio.ts";

/** Over what it has when it starts: one picture of 50 million pixels that is unpacked as a whole, and what is sent. */
const mostMoreMegabytes = 600;

const camera = await cameraJpeg({ width: 900, height: 700 });
const refused: [what: string, bytes: Buffer][] = [
  ["a PNG that says 30,000 × 30,000", hugePng(30_000, 30_000)],
  ["a JPEG that says 30,000 × 30,000", resized(camera, 30_000, 30_000)],
  ["a PNG of 60 million pixels", hugePng(10_000, 6_000)],
  ["half of a JPEG", Buffer.from(cutOff(camera))],
  ["half of a PNG", Buffer.from(cutOff(await halves(4000, 3000).png().toBuffer()))],
];
const taken: [what: string, bytes: Buffer][] = [
  ["a progressive JPEG of 49 million pixels", await progressive(7000, 7000)],
  ["a WebP of 400 pictures one after the other", await moving(400)],
];

await onEachEngine(async ({ name, variables }) => {
  const studio = await openStudio(await startApp(variables));
  const tile = await fireTile(studio.sends, studio.recipe);
  await studio.ask("/recipes");
  const before = studio.app.peakMegabytes;
  const send = (bytes: Buffer) =>
    studio.ask(`/tiles/${tile}/photos`, { form: pictureForm(bytes), withinMs: 200_000 });
  for (const [what, bytes] of refused) {
    const answers = await Promise.all([send(bytes), send(bytes), send(bytes)]);
    const said = answers.every((answer) => answer.status === 422 && inWords(answer));
    promised(
      name,
      `${what} is refused in words`,
      said,
      answers.map(({ status }) => status).join(" "),
    );
  }
  for (const [what, bytes] of taken) {
    const answers = Promise.all([send(bytes), send(bytes), send(bytes), send(bytes)]);
    const page = await studio.ask("/recipes");
    const statuses = (await answers).map(({ status }) => status);
    const right = statuses.every((status) => [200, 201, 422].includes(status));
    promised(name, `${what} is made small or refused`, right, statuses.join(" "));
    promised(
      name,
      "others are answered meanwhile",
      page.status === 200,
      `${page.status} after ${page.seconds.toFixed(1)} s`,
    );
  }
  const more = studio.app.peakMegabytes - before;
  promised(
    name,
    `all of them need less than ${mostMoreMegabytes} MB more`,
    more < mostMoreMegabytes,
    `${before.toFixed(0)} MB before, ${more.toFixed(0)} MB more at the most`,
  );
  await studio.app.end("SIGTERM");
});

function progressive(width: number, height: number): Promise<Buffer> {
  return halves(width, height).jpeg({ progressive: true, chromaSubsampling: "4:4:4" }).toBuffer();
}

async function moving(frames: number): Promise<Buffer> {
  const pictures = await Promise.all(
    Array.from({ length: frames }, (_, shade) => halves(300, 200, shade).png().toBuffer()),
  );
  return sharp(pictures, { join: { animated: true } })
    .webp({ loop: 0, effort: 0 })
    .toBuffer();
}
