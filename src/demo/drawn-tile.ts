import { mulberry32, seedOf } from "./random.ts";
import { letterPath } from "./stroke-letters.ts";

/** Colours of a fired glaze, `cover` (0 to 1) being how much of the body it hides. */
export type TileLook = {
  glaze: string;
  deep: string;
  light: string;
  cover: number;
  surface: "gloss" | "satin" | "matt" | "crawled";
};

export type DrawnTile = { look: TileLook; clay: keyof typeof bodies; cone: string; seed: string };

const bodies = {
  "Loft stoneware": { face: "#c8ab85", foot: "#a88a64", stamp: "#6e5636" },
  "Heron porcelain": { face: "#efebe2", foot: "#d6d0c4", stamp: "#8a8274" },
};

/** Pixels. */
export const drawnSize = { width: 600, height: 800 };

/**
 * A fired tile as the program imagines it: a standing tile with its foot, the glaze in layers down
 * to a wavy edge, its cone stamped in the bare clay, and the words that it is drawn. The same tile
 * is drawn the same every time.
 *
 * @returns an SVG document of `drawnSize`.
 */
export function drawTile({ look, clay, cone, seed }: DrawnTile): string {
  const random = mulberry32(seedOf(seed));
  const body = bodies[clay];
  const edge = wavyEdge(random);
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 675 900" width="${drawnSize.width}" height="${drawnSize.height}">
<defs><clipPath id="glazed"><path d="${edge}"/></clipPath>
<linearGradient id="bench" x2="0" y2="1"><stop stop-color="#dcdcd8"/><stop offset="1" stop-color="#b9b8b2"/></linearGradient></defs>
<rect width="675" height="900" fill="url(#bench)"/>
<ellipse cx="350" cy="812" rx="270" ry="26" fill="#8f8d86" opacity=".6"/>
<path d="M110 770h455l14 40H96z" fill="${body.foot}"/>
<rect x="120" y="60" width="435" height="712" rx="16" fill="${body.face}"/>
<path d="${letterPath(cone, { x: 140, y: 715, size: 6 })}" fill="none" stroke="${body.stamp}" stroke-width="5" stroke-linejoin="round"/>
<g clip-path="url(#glazed)">
<rect x="120" y="60" width="435" height="712" fill="${look.glaze}" opacity="${look.cover}"/>
${look.surface === "crawled" ? cracks(random, body.face) : layers(random, look)}
</g>
${shine[look.surface]}
<path d="${letterPath("drawn for the demo", { x: 160, y: 845, size: 3.4 })}" fill="none" stroke="#3a3936" stroke-width="2.4" stroke-linecap="round" stroke-linejoin="round"/>
</svg>`;
}

/** From the top of the tile down to where the glaze stopped running. */
function wavyEdge(random: () => number): string {
  const steps = 6;
  const drops = Array.from({ length: steps }, (_, step) => {
    const right = 555 - (435 / steps) * step;
    const low = 640 + random() * 46;
    return `Q${right - 36} ${low + 22} ${right - 435 / steps} ${low}`;
  });
  return `M136 60H539Q555 60 555 76V650${drops.join("")}V76Q120 60 136 60z`;
}

const blob = (random: () => number, widest: number): string => {
  const [x, y] = [120 + random() * 435, 60 + random() * 620];
  const [across, down] = [widest * (0.3 + random()), widest * (0.2 + random() * 0.7)];
  return `<ellipse cx="${x.toFixed(0)}" cy="${y.toFixed(0)}" rx="${across.toFixed(0)}" ry="${down.toFixed(0)}" transform="rotate(${(random() * 50 - 25).toFixed(0)} ${x.toFixed(0)} ${y.toFixed(0)})"/>`;
};

const blobs = (random: () => number, count: number, widest: number): string =>
  Array.from({ length: count }, () => blob(random, widest)).join("");

/** Clouds, then spots, then where it pooled at the edge. */
const layers = (random: () => number, look: TileLook): string =>
  `<g fill="${look.deep}" opacity="${0.22 * look.cover}">${blobs(random, 14, 90)}</g>
<g fill="${look.light}" opacity="${0.3 * look.cover}">${blobs(random, 40, 22)}</g>
<rect x="120" y="60" width="435" height="26" fill="${look.light}" opacity=".55"/>
<rect x="120" y="610" width="435" height="90" fill="${look.deep}" opacity=".4"/>`;

/** A crawled glaze shows the body between its islands. */
function cracks(random: () => number, body: string): string {
  const lines = Array.from({ length: 46 }, () => {
    const [x, y] = [120 + random() * 435, 60 + random() * 620];
    const turn = () => (random() * 150 - 75).toFixed(0);
    return `M${x.toFixed(0)} ${y.toFixed(0)}q${turn()} ${turn()} ${turn()} ${turn()}t${turn()} ${turn()}`;
  });
  return `<path d="${lines.join("")}" fill="none" stroke="${body}" stroke-width="11" stroke-linecap="round"/>`;
}

const shine: Readonly<Record<TileLook["surface"], string>> = {
  gloss:
    '<path d="M170 110h26v420h-26z" fill="#fff" opacity=".5"/><path d="M208 110h8v420h-8z" fill="#fff" opacity=".35"/>',
  satin: '<path d="M165 110h70v440h-70z" fill="#fff" opacity=".16"/>',
  matt: "",
  crawled: "",
};
