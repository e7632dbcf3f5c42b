import sharp from "sharp";
import { cameraJpeg, cutOff, halves, hugePng, notTaken } from "./camera.ts";

/** Something that is sent in place of a picture, and how it has to be answered. */
export type BadUpload = {
  what: string;
  name: string;
  bytes: Uint8Array;
  status: 415 | 422;
  says: RegExp;
};

const latin = (text: string): Buffer => Buffer.from(text, "latin1");

/** Four bytes for a length, then the letters of a box and what is in it. */
const box = (brands: string): Buffer =>
  Buffer.concat([
    Buffer.from([0, 0, 0, 8 + brands.length + 4]),
    latin(`ftyp${brands.slice(0, 4)}\0\0\0\0${brands.slice(4)}`),
  ]);

/** A JPEG whose frame says that it is of another size. */
export function resized(jpeg: Buffer, width: number, height: number): Buffer {
  const bytes = Buffer.from(jpeg);
  const frame = [0xc0, 0xc2]
    .map((kind) => bytes.indexOf(Buffer.from([0xff, kind, 0, 17])))
    .find((at) => at > 0);
  if (frame === undefined) throw new Error("this JPEG has no frame");
  bytes.writeUInt16BE(height, frame + 5);
  bytes.writeUInt16BE(width, frame + 7);
  return bytes;
}

/** Broken files, files of other kinds and files that lie, each made here. */
export async function badUploads(): Promise<BadUpload[]> {
  const jpeg = await cameraJpeg({ width: 900, height: 700 });
  const png = await halves(900, 700).png().toBuffer();
  const webp = await halves(900, 700).webp().toBuffer();
  const gif = await halves(30, 20).gif().toBuffer();
  const tiff = await halves(30, 20).tiff().toBuffer();
  const unknown = { status: 415, says: /no picture that can be read/ } as const;
  const broken = { status: 422, says: /cut off or damaged/ } as const;
  const tooMany = { status: 422, says: /million pixels/ } as const;
  const bmp = Buffer.concat([latin("BM"), Buffer.alloc(60)]);
  return [
    { what: "an empty file", name: "a.jpg", bytes: Buffer.alloc(0), status: 422, says: /empty/ },
    { what: "text called .jpg", name: "letter.jpg", bytes: notTaken.text, ...unknown },
    { what: "a single byte", name: "a.jpg", bytes: latin("\xff"), ...unknown },
    {
      what: "a JPEG's beginning and no more",
      name: "a.jpg",
      bytes: latin("\xff\xd8\xff\xe0"),
      ...broken,
    },
    { what: "half a JPEG", name: "a.jpg", bytes: cutOff(jpeg), ...broken },
    { what: "half a PNG", name: "a.png", bytes: cutOff(png), ...broken },
    { what: "half a WebP", name: "a.webp", bytes: cutOff(webp), ...broken },
    {
      what: "a PNG's signature before noise",
      name: "a.png",
      bytes: Buffer.concat([png.subarray(0, 8), Buffer.alloc(400, 7)]),
      ...broken,
    },
    {
      what: "a WebP's header before noise",
      name: "a.webp",
      bytes: Buffer.concat([webp.subarray(0, 12), Buffer.alloc(400, 7)]),
      ...broken,
    },
    { what: "a PNG of 0 × 0", name: "a.png", bytes: hugePng(0, 0), ...broken },
    { what: "a JPEG that says 0 × 0", name: "a.jpg", bytes: resized(jpeg, 0, 0), ...broken },
    {
      what: "a PNG of 60 million pixels",
      name: "a.png",
      bytes: hugePng(10_000, 6_000),
      ...tooMany,
    },
    {
      what: "a JPEG that says 65,000 × 65,000",
      name: "a.jpg",
      bytes: resized(jpeg, 65_000, 65_000),
      ...tooMany,
    },
    { what: "an SVG with a script", name: "a.svg", bytes: notTaken.svg, status: 415, says: /SVG/ },
    {
      what: "an SVG called .jpg behind a comment",
      name: "a.jpg",
      bytes: latin('<!-- tile --><svg xmlns="http://www.w3.org/2000/svg"/>'),
      status: 415,
      says: /SVG/,
    },
    { what: "a GIF", name: "a.gif", bytes: gif, status: 415, says: /GIF/ },
    {
      what: "a GIF that is a script as well",
      name: "a.jpg",
      bytes: latin("GIF89a/*\0\0*/=1;alert(1)"),
      status: 415,
      says: /GIF/,
    },
    { what: "a BMP", name: "a.bmp", bytes: bmp, ...unknown },
    { what: "a TIFF", name: "a.tiff", bytes: tiff, ...unknown },
    { what: "a PDF", name: "a.pdf", bytes: latin("%PDF-1.7\n1 0 obj\n<<>>\nendobj\n"), ...unknown },
    {
      what: "a PDF with a JPEG in it",
      name: "a.jpg",
      bytes: Buffer.concat([latin("%PDF-1.7\n"), jpeg]),
      ...unknown,
    },
    {
      what: "a page called .jpg",
      name: "a.jpg",
      bytes: latin("<!doctype html><script>alert(1)</script>"),
      ...unknown,
    },
    {
      what: "an archive called .png",
      name: "a.png",
      bytes: Buffer.concat([latin("PK\x03\x04"), Buffer.alloc(60)]),
      ...unknown,
    },
    {
      what: "a HEIC of a phone",
      name: "a.heic",
      bytes: notTaken.heic,
      status: 415,
      says: /HEIC.*JPEG/,
    },
    {
      what: "a HEIC called .jpg",
      name: "a.jpg",
      bytes: Buffer.concat([box("heixmif1heix"), Buffer.alloc(64)]),
      status: 415,
      says: /HEIC.*JPEG/,
    },
    { what: "an AVIF", name: "a.avif", bytes: notTaken.avif, status: 415, says: /AVIF.*JPEG/ },
    {
      what: "a film",
      name: "a.mp4",
      bytes: Buffer.concat([box("isommp42"), Buffer.alloc(64)]),
      ...unknown,
    },
    {
      what: "a raw file's beginning",
      name: "a.dng",
      bytes: Buffer.concat([latin("II*\0"), Buffer.alloc(60)]),
      ...unknown,
    },
  ];
}

/** A picture that moves, of three frames, as WebP. */
export async function movingWebp(): Promise<Buffer> {
  const frames = await Promise.all(
    [0, 1, 2].map((shade) => halves(60, 40, shade).png().toBuffer()),
  );
  return sharp(frames, { join: { animated: true } })
    .webp({ loop: 0 })
    .toBuffer();
}
