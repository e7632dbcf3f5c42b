import { deflateSync } from "node:zlib";
import sharp from "sharp";
import { sha256 } from "../src/db/digests.ts";
import { type NewPicture, pictureWidths } from "../src/db/pictures.ts";

type Shot = {
  width?: number;
  height?: number;
  /** EXIF orientation, 1 to 8; 6 is a phone held upright. */
  orientation?: number;
  /** Makes one picture differ from another. */
  shade?: number;
};

/**
 * A picture as a phone writes it: a red left half and a shaded right half, with EXIF that names the
 * place and the camera, XMP, and the orientation that it was held in.
 */
export async function cameraJpeg({
  width = 640,
  height = 480,
  ...shot
}: Shot = {}): Promise<Buffer> {
  const { orientation = 1, shade = 0 } = shot;
  return halves(width, height, shade)
    .withMetadata({ orientation })
    .withExifMerge({
      IFD0: { Make: "Netloft Optics", Model: "Netloft One", Artist: "Rukmini Vale" },
      IFD2: { BodySerialNumber: "NL-0042-1177", LensSerialNumber: "NL-LENS-0815" },
      IFD3: { GPSLatitudeRef: "N", GPSLatitude: "51/1 30/1 0/1", GPSLongitudeRef: "W" },
    })
    .withXmp(
      '<?xpacket begin="" id="W5M0MpCehiHzreSzNTczkc9d"?><x:xmpmeta xmlns:x="adobe:ns:meta/"></x:xmpmeta><?xpacket end="w"?>',
    )
    .jpeg({ quality: 90 })
    .toBuffer();
}

/** A picture whose four corners differ, held as EXIF's orientation says, 1 to 8. */
export async function heldJpeg(orientation: number): Promise<Buffer> {
  const [width, height] = [80, 60];
  const corner = (background: string) => ({
    create: { width: 40, height: 30, channels: 3 as const, background },
  });
  const upright = sharp({
    create: { width, height, channels: 3, background: "#ffffff" },
  }).composite([
    { input: corner("#c81e1e"), left: 0, top: 0 },
    { input: corner("#1e8c1e"), left: 40, top: 0 },
    { input: corner("#1e1ec8"), left: 0, top: 30 },
  ]);
  const { turn, mirrored } = held[orientation] ?? { turn: 0, mirrored: false };
  // One step at a time: within one pipeline sharp has an order of its own.
  const turned = await sharp(await upright.png().toBuffer())
    .rotate(turn)
    .png()
    .toBuffer();
  return sharp(turned)
    .flop(mirrored)
    .withMetadata({ orientation })
    .jpeg({ quality: 95 })
    .toBuffer();
}

/**
 * What lies between a picture and what the sensor saw: turned clockwise, then mirrored left to right.
 * Source: CIPA DC-008 (Exif 2.32), tag 274.
 */
const held: Readonly<Record<number, { turn: number; mirrored: boolean }>> = {
  2: { turn: 0, mirrored: true },
  3: { turn: 180, mirrored: false },
  4: { turn: 180, mirrored: true },
  5: { turn: 90, mirrored: true },
  6: { turn: 270, mirrored: false },
  7: { turn: 270, mirrored: true },
  8: { turn: 90, mirrored: false },
};

/** One colour written in the wide gamut of a phone's screen, with its profile. */
export async function wideGamutPng([red, green, blue]: readonly [
  number,
  number,
  number,
]): Promise<Buffer> {
  const pixels = Buffer.alloc(64 * 64 * 3);
  for (let at = 0; at < pixels.length; at += 3) pixels.set([red, green, blue], at);
  const raw = { width: 64, height: 64, channels: 3 as const };
  // Written first without a word about its colours, so that nothing is converted on the way.
  const profile = await sharp({ create: { ...raw, background: "#888888" } })
    .withIccProfile("p3")
    .png()
    .toBuffer();
  const { icc } = await sharp(profile).metadata();
  if (!icc) throw new Error("there is no profile to be had");
  return withProfile(await sharp(pixels, { raw }).png().toBuffer(), icc);
}

/** A PNG with a profile beside its pixels, which stay as they are. */
function withProfile(png: Buffer, icc: Buffer): Buffer {
  const header = png.subarray(0, 33);
  const named = Buffer.concat([Buffer.from("p3\0\0", "latin1"), deflateSync(icc)]);
  const rest = png.subarray(33);
  return Buffer.concat([header, chunk("iCCP", named), rest]);
}

/** The same two halves without a word about where they were taken. */
export const halves = (width: number, height: number, shade = 0) => {
  const red = { r: 200, g: 30, b: 30 };
  // Far enough apart that no two shades near each other come out of JPEG the same.
  const right = { r: 30, g: (shade * 53) % 256, b: 80 + ((shade * 29) % 170) };
  const half = { width: Math.ceil(width / 2), height, channels: 3 as const };
  return sharp({ create: { width, height, channels: 3, background: right } }).composite([
    { input: { create: { ...half, background: red } }, left: 0, top: 0 },
  ]);
};

/** Cut off in the middle, as when the network went away. */
export const cutOff = (bytes: Uint8Array): Uint8Array => bytes.subarray(0, bytes.length / 2);

/** A PNG of any size in a few kilobytes: white, one bit a pixel. */
export function hugePng(width: number, height: number): Buffer {
  const row = 1 + Math.ceil(width / 8);
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.writeUInt8(1, 8);
  return Buffer.concat([
    Buffer.from("\x89PNG\r\n\x1a\n", "latin1"),
    chunk("IHDR", header),
    chunk("IDAT", deflateSync(Buffer.alloc(row * height))),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

function chunk(type: string, content: Buffer): Buffer {
  const named = Buffer.concat([Buffer.from(type, "latin1"), content]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(content.length);
  const check = Buffer.alloc(4);
  check.writeUInt32BE(crc32(named));
  return Buffer.concat([length, named, check]);
}

/** CRC-32 as PNG wants it: W3C "Portable Network Graphics (PNG) Specification", annex D. */
function crc32(bytes: Buffer): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}

const box = (...brands: string[]): Buffer => {
  const content = Buffer.from(`ftyp${brands[0]}\0\0\0\0${brands.slice(1).join("")}`, "latin1");
  const length = Buffer.alloc(4);
  length.writeUInt32BE(content.length + 4);
  return Buffer.concat([length, content, Buffer.alloc(64)]);
};

/** How the files begin that are not taken; what follows does not matter, since nothing reads it. */
export const notTaken = {
  svg: Buffer.from(
    '<?xml version="1.0"?>\n<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>',
  ),
  gif: Buffer.from("GIF89a\x01\0\x01\0\0\0\0;", "latin1"),
  heic: box("heic", "mif1", "heic"),
  avif: box("mif1", "miaf", "avif"),
  text: Buffer.from("This is a letter, not a picture.\n"),
};

/** A multipart form with a picture in it, as a browser sends it. */
export function pictureForm(
  bytes: Uint8Array,
  name = "tile.jpg",
  more: Record<string, string> = {},
) {
  const form = new FormData();
  form.set("photo", new File([new Uint8Array(bytes)], name, { type: "image/jpeg" }));
  for (const [field, value] of Object.entries(more)) form.set(field, value);
  return form;
}

/** A picture as the studio keeps it, in a few bytes that no camera made. */
export function fakePicture(shade: number): NewPicture {
  const bytes = new Uint8Array([shade, 0xff, 0]);
  const smaller = pictureWidths.map((width) => ({
    width,
    bytes: new Uint8Array([shade, width % 256]),
  }));
  return { sha256: sha256(bytes), width: 40, height: 30, bytes, smaller };
}
