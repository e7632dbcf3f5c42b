import { Choice, faultAt } from "../parts/field.tsx";
import type { RestatePageProps } from "./types.ts";

type PowdersProps = Pick<RestatePageProps, "regions" | "typed" | "faults" | "member">;

/** Where the powders are bought, and which of their analyses count. */
export const Powders = ({ regions, typed, faults, member }: PowdersProps) => (
  <>
    {regions.length > 0 ? (
      <Choice
        label="Powders by their names in"
        name="region"
        value={typed.text("region")}
        fault={faultAt(faults, "region")}
        options={[
          { value: "", label: "this studio" },
          ...regions.map((region) => ({ value: region, label: region })),
        ]}
      />
    ) : null}
    {member ? (
      <Choice
        label="Analyses"
        name="from"
        value={typed.text("from")}
        fault={faultAt(faults, "from")}
        options={[
          { value: "inUse", label: "those in use" },
          { value: "newestLots", label: "those of the newest lots" },
        ]}
        hint="Where nobody analysed a lot, the powder's newest stands in for it, with its ± doubled."
      />
    ) : null}
  </>
);
