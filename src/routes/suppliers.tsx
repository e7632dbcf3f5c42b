import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { Suppliers } from "../../views/materials/suppliers.tsx";
import { addSupplier, listSuppliers, type Supplier } from "../db/suppliers.ts";
import { answer, created } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, line, text } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notAllowed } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";

export const suppliers = new Hono<Env>();

const supplierBody = z.strictObject({
  name: line(80),
  about: text(2000, 0).default(""),
  idempotencyKey,
});

suppliers.get(
  "/",
  described({ says: "Who sells powders to the studio, in the order of names" }),
  memberRequired,
  async (c) => {
    const items = await listSuppliers(c.var.db);
    return answer(c, {
      json: () => ({ items: items.map(supplierJson), next: null }),
      ...sheet(c, items, {}, []),
    });
  },
);

suppliers.post(
  "/",
  described({ says: "Put a supplier on record", body: supplierBody, status: 201 }),
  memberRequired,
  async (c) => {
    if (!mayAdd(c))
      return notAllowed(c, "A manager or a reviewer of the studio adds suppliers. Ask one.");
    const { db } = c.var;
    const read = await readBody(c, supplierBody);
    const again = async (faults: readonly Fault[]) =>
      sheet(c, await listSuppliers(db), read.typed, faults);
    if (read.kind === "refused") return faulty(c, read, await again(read.faults));

    const { name, about } = read.value;
    const added = await addSupplier(db, { name, about, ...actOf(c) });
    switch (added.kind) {
      case "name-taken": {
        const faults = [{ path: "name", says: "This supplier is on record already." }];
        return faulty(c, { faults }, await again(faults));
      }
      case "added":
        return created(c, "/suppliers", supplierJson(added.supplier));
    }
  },
);

const mayAdd = (c: Ctx): boolean => ["manager", "reviewer"].includes(memberOf(c).role);

const supplierJson = ({ slug, name, about, addedAt }: Supplier) => ({ slug, name, about, addedAt });

const sheet = (c: Ctx, items: readonly Supplier[], typed: Typed, faults: readonly Fault[]) => ({
  page: { title: "Suppliers", here: "shelf" } as const,
  view: () => (
    <Suppliers
      suppliers={items}
      mayAdd={mayAdd(c)}
      typed={(path) => typedText(typed, path)}
      faults={faults}
      idempotencyKey={uuidv7()}
    />
  ),
});
