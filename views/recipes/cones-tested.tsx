import type { ConesTested, ConeTested } from "../../src/chem/cones-tested.ts";

type ConesFiredProps = { found: ConesTested; atmosphere: string };

/** Which cones the recipe claims and which its tiles were fired at, and where the two disagree. */
export const ConesFired = ({ found, atmosphere }: ConesFiredProps) => (
  <>
    <ul>
      {found.cones.map((at) => (
        <li>
          <strong>Cone {at.cone}</strong>
          {at.claimed ? ", claimed" : ", not claimed"}: {firedWords(at)}
        </li>
      ))}
    </ul>
    {found.disagreements.map((says) => (
      <p>
        <strong>Claim and tiles disagree.</strong> {says}
      </p>
    ))}
    {found.otherAtmosphere > 0 ? (
      <p>
        Not counted here, since not fired in {atmosphere}: {tilesWords(found.otherAtmosphere)}.
      </p>
    ) : null}
  </>
);

function firedWords({ tiles, bodies, witnessed, defects }: ConeTested): string {
  if (tiles === 0) return "no tile.";
  const seen = defects.length === 0 ? "no defect" : `${defects.join(", ")} seen`;
  return `${tilesWords(tiles)}${bodyWords(bodies)}, ${witnessWords(tiles, witnessed)}, ${seen}.`;
}

function bodyWords(bodies: ConeTested["bodies"]): string {
  const named = bodies.map(({ name, tiles }) => ({
    name: name || "a clay that is not said",
    tiles,
  }));
  if (named.length === 1) return ` on ${named[0]?.name}`;
  return ` (${named.map(({ name, tiles }) => `${tiles} on ${name}`).join(", ")})`;
}

const tilesWords = (tiles: number): string => (tiles === 1 ? "1 tile" : `${tiles} tiles`);

function witnessWords(tiles: number, witnessed: number): string {
  if (witnessed === tiles) return tiles === 1 ? "by its witness cone" : "all by their witness cone";
  if (witnessed === 0) return "the cone only said, with no witness cone down beside it";
  return `${witnessed} by witness cone and ${tiles - witnessed} only said`;
}
