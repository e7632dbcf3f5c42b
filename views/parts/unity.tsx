import type { Chemistry, UnityOxide } from "../../src/chem/chemistry-types.ts";
import { oxideRole } from "../../src/chem/oxide-roles.ts";
import { fluxes, isOxide, type Oxide, oxidePlace } from "../../src/chem/oxides.ts";
import { type AskAt, Asked } from "./asked.tsx";
import { OxideName } from "./oxide.tsx";
import { Quantity } from "./quantity.tsx";
import { Term } from "./term.tsx";

type Unity = NonNullable<Chemistry["unity"]>;

const unityMeans =
  "The glaze counted in moles, with all its fluxes together set to one. Two glazes are alike when these figures are, whatever powders they came from.";

type UnityFormulaProps = {
  unity: Chemistry["unity"];
  of?: string | undefined;
  ask?: AskAt | undefined;
};

/** The unity formula in the trade's three columns: fluxes, alumina and boron, silica and the rest. */
export const UnityFormula = ({ unity, of, ask }: UnityFormulaProps) => (
  <section class="unity">
    <h3>
      <Term guide="unity-formula#moles" means={unityMeans}>
        Unity formula
      </Term>
    </h3>
    {unity ? (
      <Columns unity={unity} of={of} ask={ask} />
    ) : (
      <p>None: there is no flux in this melt to divide by.</p>
    )}
  </section>
);

type ColumnsProps = { unity: Unity; of: string | undefined; ask: AskAt | undefined };

const Columns = ({ unity, of, ask }: ColumnsProps) => {
  const base = baseOf(unity);
  const held = unityOrder(unity);
  const rest = held.filter((oxide) => !base.includes(oxide) && !stabilisers.includes(oxide));
  return (
    <div class="unity-columns">
      <Column
        head="Fluxes"
        unity={unity}
        of={of}
        ask={ask}
        oxides={held.filter((oxide) => base.includes(oxide))}
      />
      <Column
        head="Alumina and boron"
        unity={unity}
        of={of}
        ask={ask}
        oxides={held.filter((oxide) => stabilisers.includes(oxide))}
      />
      <Column head="Silica and others" unity={unity} of={of} ask={ask} oxides={rest} />
    </div>
  );
};

const stabilisers: readonly UnityOxide[] = ["Al2O3", "B2O3"];
const colouringFluxes: readonly UnityOxide[] = ["FeO", "MnO", "CoO", "CuO", "NiO"];

/**
 * The oxides that were set to one together. Where the fluxes alone fall short of one, the colouring
 * fluxes were counted with them.
 */
const baseOf = (unity: Unity): readonly UnityOxide[] => {
  const sum = fluxes.reduce((total, oxide) => total + (unity[oxide]?.value ?? 0), 0);
  return sum < 1 - 1e-6 ? [...fluxes, ...colouringFluxes] : fluxes;
};

const placeOf = (oxide: UnityOxide): number => oxidePlace[oxide === "FeO" ? "Fe2O3" : oxide];

const unityOrder = (unity: Unity): UnityOxide[] =>
  Object.keys(unity)
    .filter((oxide) => oxide === "FeO" || isOxide(oxide))
    .sort((a, b) => placeOf(a) - placeOf(b));

/** The oxides of a result in the order in which the trade writes them. */
export const inOrder = (quantities: Readonly<Record<string, unknown>>): Oxide[] =>
  Object.keys(quantities)
    .filter(isOxide)
    .sort((a, b) => oxidePlace[a] - oxidePlace[b]);

type ColumnProps = ColumnsProps & {
  head: string;
  oxides: readonly UnityOxide[];
};

const Column = ({ head, unity, of, ask, oxides }: ColumnProps) => (
  <div class="unity-column">
    <h4>{head}</h4>
    {oxides.length === 0 ? (
      <p>none</p>
    ) : (
      <dl>
        {oxides.map((oxide) => (
          <div>
            <dt>
              <OxideName oxide={oxide} explain role={roleOf(oxide)} of={of} />
            </dt>
            <dd>
              <Asked at={ask} name={`unity.${oxide}`}>
                <Quantity {...(unity[oxide] ?? nothing)} digits={3} />
              </Asked>
            </dd>
          </div>
        ))}
      </dl>
    )}
  </div>
);

const roleOf = (oxide: UnityOxide): string => oxideRole[oxide === "FeO" ? "Fe2O3" : oxide];

const nothing = { value: null } as const;
