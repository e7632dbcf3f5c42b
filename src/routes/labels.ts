import { Hono } from "hono";
import { z } from "zod";
import { markMeans, markWords } from "../../views/labels/mark.tsx";
import { LabelPage } from "../../views/labels/page.tsx";
import { labelSizes, leftOut, placesOf } from "../../views/labels/sizes.ts";
import { findBucket } from "../db/buckets.ts";
import { answer } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { whole } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound, refuse } from "../wire/problems.tsx";
import { qrCodeOf } from "../work/qr.ts";
import { labelOf, scanAddress } from "./bucket-label.ts";

export const labels = new Hono<Env>();

const [plain] = labelSizes;
const mostPlaces = Math.max(...labelSizes.map(placesOf));

const asked = z.object({
  size: z.enum(labelSizes.map(({ id }) => id)).default(plain.id),
  from: whole(1, mostPlaces).default(1),
  copies: whole(1, mostPlaces).default(1),
});

labels.get(
  "/buckets/:id/label",
  described({
    says: "The label of a bucket, printed on a page or on a place of a sheet of labels",
    query: asked,
  }),
  memberRequired,
  async (c) => {
    const { db, viewer: reader, now } = c.var;
    const bucket = await findBucket(db, { id: c.req.param("id"), reader, now });
    if (!bucket) return notFound(c);
    const address = scanAddress(c, bucket.id);
    if (!address) return refuse(c, withoutAddress);

    const label = await labelOf(c, bucket);
    const code = qrCodeOf(address);
    const given = Object.fromEntries(
      Object.entries(c.req.query()).filter(([, typed]) => typed !== ""),
    );
    const sheet = (laid: Laid, faults: readonly Fault[] = []) => ({
      page: { title: `Label of ${bucket.name}`, here: "buckets" } as const,
      view: () =>
        LabelPage({
          ...{ label, code, address, faults, ...laid },
          typed: (name) => given[name] ?? first[name] ?? "",
        }),
    });
    const read = check(asked, given);
    if (read.kind === "refused") return faulty(c, read, sheet(onPlain, read.faults));
    const { size: id, from, copies } = read.value;
    const laid = { size: labelSizes.find((size) => size.id === id) ?? plain, from, copies };
    const faults = faultsOfPlaces(laid);
    if (faults.length > 0) return faulty(c, { faults }, sheet({ ...laid, ...once }, faults));

    const { mark, ...more } = label;
    return answer(c, {
      json: () => ({
        ...{ ...more, address, mark, says: markWords[mark], means: markMeans[mark] },
        ...{ size: id, from, copies, leaves: leftOut(laid.size) },
        sizes: labelSizes.map((size) => ({
          id: size.id,
          says: size.says,
          widthMm: size.widthMm,
          heightMm: size.heightMm,
          places: placesOf(size),
          leaves: leftOut(size),
        })),
      }),
      ...sheet(laid),
    });
  },
);

type Laid = { size: (typeof labelSizes)[number]; from: number; copies: number };

const once = { from: 1, copies: 1 };
const onPlain: Laid = { size: plain, ...once };
const first: Record<string, string> = { size: plain.id, from: "1", copies: "1" };

/** One sheet is printed at a time. */
function faultsOfPlaces({ size, from, copies }: Laid): Fault[] {
  const places = placesOf(size);
  if (from > places) return [{ path: "from", says: `This paper has places 1 to ${places}.` }];
  const left = places - from + 1;
  return copies > left
    ? [{ path: "copies", says: `There is room for ${left} from place ${from} on.` }]
    : [];
}

const withoutAddress = {
  status: 409,
  title: "Labels wait for the studio's address",
  detail:
    "The code on a label is read with other people's phones, so it needs the address where they reach this studio, and nobody has told the program. Whoever runs it sets PUBLIC_URL, such as https://glazes.example, and starts it again.",
} as const;
