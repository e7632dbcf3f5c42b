import { mainOxides } from "../materials/main-oxides.ts";
import { type Fault, faultAt, idOfField } from "../parts/field.tsx";
import { OxideName } from "../parts/oxide.tsx";
import { plainNumber } from "../parts/quantity.tsx";
import type { NameToMatch, PossiblePowder } from "./types.ts";

type NamesProps = { names: readonly NameToMatch[]; faults: readonly Fault[] };

/** Each name in the file with the powders that it may mean, and what to beware of. */
export const NamesToMatch = ({ names, faults }: NamesProps) => (
  <ol class="import-names">
    {names.map((entry, place) => (
      <li>
        <OneName entry={entry} place={place} fault={faultAt(faults, `is.${place}`)} />
      </li>
    ))}
  </ol>
);

type OneNameProps = { entry: NameToMatch; place: number; fault: string | undefined };

const OneName = ({ entry, place, fault }: OneNameProps) => {
  const { name, possible, is, inRecipes, described } = entry;
  const id = idOfField(`is.${place}`);
  return (
    <>
      <input type="hidden" name={`name.${place}`} value={name} />
      <div class={fault ? "field field-faulty" : "field"}>
        <label for={id}>{name}</label>
        <span class="field-hint" id={`${id}-hint`}>
          {usedWords(inRecipes, described)} {isWords(entry)}
        </span>
        {fault ? (
          <span class="field-fault" id={`${id}-fault`}>
            <span class="hidden-words">To put right: </span>
            {fault}
          </span>
        ) : null}
        <select
          id={id}
          name={`is.${place}`}
          aria-describedby={fault ? `${id}-fault ${id}-hint` : `${id}-hint`}
          aria-invalid={fault ? "true" : undefined}
        >
          <option value="" selected={is === ""}>
            Choose
          </option>
          {possible.map(({ material }) => (
            <option value={material.slug} selected={is === material.slug}>
              It is {material.name}
            </option>
          ))}
          <option value="new" selected={is === "new"}>
            A new material
          </option>
          <option value="leave out" selected={is === "leave out"}>
            Leave it out, with its recipes
          </option>
        </select>
      </div>
      {possible.length > 0 ? (
        <ul>
          {possible.map((each) => (
            <li>
              <Possible possible={each} />
            </li>
          ))}
        </ul>
      ) : null}
    </>
  );
};

const usedWords = (recipes: number, described: boolean): string => {
  const used = recipes === 0 ? "" : recipes === 1 ? "In one recipe." : `In ${recipes} recipes.`;
  const told = described
    ? "The file tells what is in it."
    : "The file has only its name: as a new material it has no analysis, and can be an addition alone.";
  return [used, told].filter(Boolean).join(" ");
};

function isWords({ possible, is, said }: NameToMatch): string {
  if (possible.length === 0 && is === "") return "Nothing here goes by that name.";
  if (is === "") return "Not matched: choose.";
  return said ? "" : "Chosen beforehand: see that it is the same powder.";
}

const Possible = ({ possible }: { possible: PossiblePowder }) => {
  const { material, because, analysis, cautions, takenBack } = possible;
  return (
    <>
      <a href={`/materials/${material.slug}`}>{material.name}</a>: {because}{" "}
      {analysis ? (
        <>
          Its analysis in use: <Brings analysis={analysis.analysis} />. {analysis.source}
          {analysis.measuredOn === null ? ", no date" : `, ${analysis.measuredOn}`}.
        </>
      ) : (
        "It has no analysis."
      )}
      {takenBack ? (
        <> It came with an import that was taken back; chosen here, it is offered again.</>
      ) : null}
      {cautions.map((caution) => (
        <strong class="import-caution"> Beware: {caution}</strong>
      ))}
    </>
  );
};

const Brings = ({ analysis }: { analysis: Parameters<typeof mainOxides>[0] }) => (
  <>
    {mainOxides(analysis).map(({ oxide, percent }, place) => (
      <>
        {place > 0 ? ", " : ""}
        <span class="quantity">
          <OxideName oxide={oxide} /> {plainNumber(percent, 1)} %
        </span>
      </>
    ))}
  </>
);
