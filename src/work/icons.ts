import { loadSharp, twoAtATime } from "./pictures.ts";

/** The paper that the drawing stands on. */
const paper = "#edf1ec";

/**
 * The sizes that screens ask for, in pixels. What a screen may cut into a shape of its own keeps the
 * drawing within the middle four fifths, the safe zone of a maskable icon (W3C, Web App Manifest).
 */
export const icons = {
  "icon-192.png": { side: 192, drawn: 1 },
  "icon-512.png": { side: 512, drawn: 1 },
  "maskable-512.png": { side: 512, drawn: 0.78 },
  "apple-touch-180.png": { side: 180, drawn: 0.9 },
} as const;

export type Icon = keyof typeof icons;

const made = new Map<Icon, Promise<Uint8Array<ArrayBuffer>>>();

/** @returns the PNG, drawn once from the studio's SVG and kept. */
export function makeIcon(name: Icon, svg: Uint8Array): Promise<Uint8Array<ArrayBuffer>> {
  const icon = made.get(name) ?? twoAtATime(() => draw(name, svg));
  made.set(name, icon);
  return icon;
}

async function draw(name: Icon, svg: Uint8Array): Promise<Uint8Array<ArrayBuffer>> {
  const { side, drawn } = icons[name];
  const sharp = await loadSharp();
  const inner = Math.round((side * drawn) / 2) * 2;
  const edge = (side - inner) / 2;
  const png = await sharp(svg, { density: (72 * inner) / 32 })
    .resize(inner, inner)
    .extend({ top: edge, bottom: edge, left: edge, right: edge, background: paper })
    .png({ palette: true })
    .toBuffer();
  return new Uint8Array(png);
}
