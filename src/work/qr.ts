import { correction, generate } from "lean-qr";

/** The empty border that a reader needs round a code, in modules. */
const quiet = 4;

/** A code to be drawn: a square of so many modules, the empty border among them. */
export type QrCode = {
  modules: number;
  /** An SVG path over that square which fills what is dark. */
  path: string;
};

/**
 * A text as a QR code of correction level M or better (ISO/IEC 18004: 15 % of it may be lost).
 *
 * Worked number: an address of 61 letters takes version 4, so 33 modules and 41 with the border.
 */
export function qrCodeOf(text: string): QrCode {
  const bitmap = generate(text, { minCorrectionLevel: correction.M });
  const { size } = bitmap;
  const places = Array.from({ length: size }, (_, place) => place);
  const path = places.flatMap((y) =>
    places
      .filter((x) => bitmap.get(x, y) && !bitmap.get(x - 1, y))
      .map((x) => {
        const run = places.slice(x).findIndex((next) => !bitmap.get(next, y));
        const wide = run === -1 ? size - x : run;
        return `M${x + quiet} ${y + quiet}h${wide}v1h-${wide}z`;
      }),
  );
  return { modules: size + 2 * quiet, path: path.join("") };
}
