import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import {
  PackForm,
  type PriceFormProps,
  PriceListForm,
  TermsForm,
} from "../../views/suppliers/forms.tsx";
import { SupplierPage } from "../../views/suppliers/page.tsx";
import { findLastCurrency } from "../db/lots.ts";
import { matchMaterials } from "../db/material-matching.ts";
import { addPacks, listPacks, type NewPack } from "../db/packs.ts";
import { listLotsOfSupplier } from "../db/price-history.ts";
import { listTerms, setTerms } from "../db/supplier-terms.ts";
import { findSupplierBySlug, type Supplier } from "../db/suppliers.ts";
import { answer, changed, created, page } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { managerRequired, memberRequired } from "../wire/permissions.ts";
import { packBody, priceListBody, termsBody } from "../wire/price-body.ts";
import { readPriceList } from "../wire/price-list.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { packJson, supplierPricesJson, termsJson } from "./supplier-json.ts";

export const supplierPrices = new Hono<Env>();

const mostLots = 100;

supplierPrices.get(
  "/:slug",
  described({
    says: "A supplier: its packs and prices, what sending costs, what was bought of it",
  }),
  memberRequired,
  async (c) => {
    const supplier = await supplierAt(c);
    if (!supplier) return notFound(c);
    const { db } = c.var;
    const prices = {
      packs: await listPacks(db, supplier.id),
      terms: (await listTerms(db)).get(supplier.id) ?? null,
      lots: await listLotsOfSupplier(db, { supplierId: supplier.id, limit: mostLots }),
    };
    const mayManage = memberOf(c).role === "manager";
    return answer(c, {
      json: () => supplierPricesJson(supplier, prices),
      page: { title: supplier.name, here: "shelf" },
      view: () => SupplierPage({ supplier, ...prices, mayManage, newKey: uuidv7 }),
    });
  },
);

const titles: Readonly<Record<Asked, string>> = {
  packs: "A price of",
  "price-list": "The price list of",
  terms: "What sending costs of",
};

const forms = { packs: PackForm, "price-list": PriceListForm, terms: TermsForm } as const;
type Asked = keyof typeof forms;

for (const [path, asked, says] of [
  ["/:slug/packs/new", "packs", "The form for a price of a supplier"],
  ["/:slug/price-list", "price-list", "The form for a supplier's price list"],
  ["/:slug/terms", "terms", "The form for what sending costs"],
] as const)
  supplierPrices.get(path, described({ says }), managerRequired, async (c) => {
    const supplier = await supplierAt(c);
    if (!supplier) return notFound(c);
    const form = formOf(asked, supplier, await known(c, supplier, asked), []);
    return page(c, form.page, form.view);
  });

supplierPrices.post(
  "/:slug/packs",
  described({
    says: "Put the price of a pack on record, or say that it is no longer sold",
    body: packBody,
    status: 201,
  }),
  managerRequired,
  async (c) => {
    const { db } = c.var;
    const supplier = await supplierAt(c);
    if (!supplier) return notFound(c);
    const read = await readBody(c, packBody);
    const refused = (faults: readonly Fault[], status: 415 | 422 = 422) =>
      faulty(c, { status, faults }, formOf("packs", supplier, read.typed, faults));
    if (read.kind === "refused") return refused(read.faults, read.status);
    const { material: word, packGrams, packPrice, currency, stillSold } = read.value;
    const { materials, faults } = await readMaterials(c, [{ path: "material", word }]);
    const [material] = materials;
    if (!material) return refused(faults);
    const now = (await listPacks(db, supplier.id)).find(
      (pack) => pack.material.id === material.id && pack.packGrams.eq(packGrams),
    );
    const price = packPrice && currency ? { packPrice, currency } : now;
    if (!price || (!stillSold && !now))
      return refused([{ path: "packGrams", says: "It sells no such pack by what is on record." }]);
    const added: NewPack = {
      materialId: material.id,
      packGrams,
      packPrice: price.packPrice,
      currency: price.currency,
      stillSold,
    };
    await addPacks(db, { supplierId: supplier.id, added: [added], ...actOf(c) });
    return created(c, `/suppliers/${supplier.slug}#packs`, packJson({ ...added, material }));
  },
);

supplierPrices.post(
  "/:slug/price-list",
  described({
    says: "Put a pasted price list on record, all of it or none; faults name their lines",
    body: priceListBody,
    status: 201,
  }),
  managerRequired,
  async (c) => {
    const supplier = await supplierAt(c);
    if (!supplier) return notFound(c);
    const read = await readBody(c, priceListBody);
    const refused = (faults: readonly Fault[], status: 415 | 422 = 422) =>
      faulty(c, { status, faults }, formOf("price-list", supplier, read.typed, faults));
    if (read.kind === "refused") return refused(read.faults, read.status);
    const { text, currency } = read.value;
    const { rows, faults: unread } = readPriceList(text);
    const { materials, faults: unknown } = await readMaterials(
      c,
      rows.map(({ line, material }) => ({
        path: "text",
        word: material,
        before: `Line ${line}: `,
      })),
    );
    const faults = [...unread, ...unknown];
    if (faults.length > 0) return refused(faults);
    const added = rows.flatMap(({ packGrams, packPrice }, place) => {
      const material = materials[place];
      const pack = { packGrams, packPrice, currency, stillSold: true };
      return material ? [{ ...pack, materialId: material.id, material }] : [];
    });
    await addPacks(c.var.db, {
      supplierId: supplier.id,
      added: added.map(({ material: _, ...pack }) => pack),
      ...actOf(c),
    });
    return created(c, `/suppliers/${supplier.slug}#packs`, { items: added.map(packJson) });
  },
);

supplierPrices.on(
  ["PUT", "POST"],
  "/:slug/terms",
  described({ says: "Put down what a supplier takes for sending", body: termsBody }),
  managerRequired,
  async (c) => {
    const supplier = await supplierAt(c);
    if (!supplier) return notFound(c);
    const read = await readBody(c, termsBody);
    if (read.kind === "refused")
      return faulty(c, read, formOf("terms", supplier, read.typed, read.faults));
    const { idempotencyKey: _, ...terms } = read.value;
    await setTerms(c.var.db, { supplierId: supplier.id, ...terms, ...actOf(c) });
    const now = (await listTerms(c.var.db)).get(supplier.id);
    return changed(c, `/suppliers/${supplier.slug}#terms`, now && termsJson(now));
  },
);

const supplierAt = (c: Ctx): Promise<Supplier | undefined> =>
  findSupplierBySlug(c.var.db, c.req.param("slug") ?? "");

/** What a form begins with: the currency last paid in, and the terms as they are. */
async function known(c: Ctx, { id }: Supplier, asked: Asked): Promise<Typed> {
  const currency = c.var.studio.currency ?? (await findLastCurrency(c.var.db)) ?? "";
  const terms = asked === "terms" ? (await listTerms(c.var.db)).get(id) : undefined;
  return terms ? { ...termsJson(terms) } : { currency };
}

type Word = { path: string; word: string; before?: string };

/** The powders that are meant, each at its word's place; what may be meant is asked, never guessed. */
async function readMaterials(c: Ctx, words: readonly Word[]) {
  const matches = await matchMaterials(
    c.var.db,
    words.map(({ word }) => word),
  );
  const faults: Fault[] = [];
  const materials = words.map(({ path, word, before = "" }) => {
    const match = matches.get(word);
    if (match?.kind === "sure") return match.material;
    const says =
      match?.kind === "ask"
        ? match.candidates
            .map(({ material, because }) => `${because} Write ${material.slug} if it is.`)
            .join(" ")
        : `“${word}” is no powder on the shelf.`;
    faults.push({ path, says: `${before}${says}` });
    return undefined;
  });
  return { materials, faults };
}

const formOf = (asked: Asked, supplier: Supplier, typed: Typed, faults: readonly Fault[]) => {
  const props: PriceFormProps = {
    ...{ supplier, faults, idempotencyKey: uuidv7() },
    typed: (path) => typedText(typed, path),
  };
  return {
    page: { title: `${titles[asked]} ${supplier.name}`, here: "shelf" as const },
    view: () => forms[asked](props),
  };
};
