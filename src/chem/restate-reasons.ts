import { fluxes, type Oxide } from "./oxides.ts";
import { exactWithin, type Moles, missOf, type Restatable } from "./restating.ts";
import { listed } from "./shelf-words.ts";

/** An oxide that a restated glaze misses, and why in words. */
export type Miss = { oxide: Oxide; wanted: number; got: number; because: string };

/** What the formula came to where one condition was dropped, and how that condition is called. */
export type Relaxed = { says: string; unity: Moles };

type Restating = {
  wanted: Moles;
  counted: readonly Oxide[];
  shelf: readonly Restatable[];
  /** What was found, by the material's key. */
  amounts: Readonly<Record<string, number>>;
  unity: Moles;
  relaxed: readonly Relaxed[];
};

/** Every miss that counts, in the order of display, each with its reason. */
export function missesOf(restating: Restating): Miss[] {
  const { wanted, counted, unity } = restating;
  return counted.flatMap((oxide) => {
    const [want, got] = [wanted[oxide] ?? 0, unity[oxide] ?? 0];
    if (missOf(want, got) <= exactWithin) return [];
    const because = got < want ? whyShort(restating, oxide) : whyOver(restating, oxide);
    return [{ oxide, wanted: want, got, because }];
  });
}

const brings = ({ moles }: Restatable, oxide: Oxide): boolean => (moles[oxide] ?? 0) > 0;

function whyShort(restating: Restating, oxide: Oxide): string {
  const { shelf, wanted, counted, unity } = restating;
  const bringers = shelf.filter((material) => brings(material, oxide));
  if (bringers.length === 0) return `No material of the shelf brings ${oxide}.`;
  const condition = inTheWay(restating, oxide);
  if (condition) return condition;
  const full = counted.filter(
    (other) => other !== oxide && (unity[other] ?? 0) >= (wanted[other] ?? 0) - exactWithin,
  );
  const always = full.filter((other) => bringers.every((material) => brings(material, other)));
  if (always.length > 0) {
    const over = always.filter((other) => (unity[other] ?? 0) > (wanted[other] ?? 0) + exactWithin);
    const [named, is] = over.length > 0 ? [over, "over"] : [always, "there in full"];
    const which = `${listed(named)}, which ${named.length > 1 ? "are" : "is"} ${is}`;
    return bringers.length === 1
      ? `Only ${bringers[0]?.name} brings it, and with it comes ${which}.`
      : `Every material that brings it also brings ${which}.`;
  }
  const blocked = bringers.flatMap((material) => {
    const other = full.find((each) => brings(material, each));
    return other ? [`${material.name} brings ${other} as well`] : [];
  });
  if (blocked.length === bringers.length)
    return `More of it brings too much of something else: ${listed(blocked.slice(0, 3))}.`;
  return fluxes.some((flux) => flux === oxide)
    ? "The fluxes add up to 1, and those that come with the other materials leave no more room for it."
    : "More of it would put more of the other oxides out than it gains here.";
}

function whyOver(restating: Restating, oxide: Oxide): string {
  const condition = inTheWay(restating, oxide);
  if (condition) return condition;
  const { shelf, amounts, wanted, counted, unity } = restating;
  const bringers = shelf.filter(
    (material) => (amounts[material.key] ?? 0) > 0 && brings(material, oxide),
  );
  const comes = bringers
    .sort((a, b) => broughtBy(b, amounts, oxide) - broughtBy(a, amounts, oxide))
    .slice(0, 2)
    .map((material) => {
      const need = neededFor(material, restating, oxide);
      if (!need) return `It comes with ${material.name}.`;
      const alone = shelf.every((other) => !brings(other, need) || brings(other, oxide));
      const nothing = alone ? `, and no material of the shelf brings ${need} without it` : "";
      return `It comes with ${material.name}, which is there for ${need}${nothing}.`;
    });
  const short = fluxes.filter(
    (flux) => counted.includes(flux) && (unity[flux] ?? 0) < (wanted[flux] ?? 0) - exactWithin,
  );
  const isFlux = fluxes.some((flux) => flux === oxide);
  if (isFlux && short.length > 0)
    comes.push(`The fluxes add up to 1, so it stands in for ${listed(short)}.`);
  return comes.join(" ");
}

const broughtBy = ({ key, moles }: Restatable, amounts: Restating["amounts"], oxide: Oxide) =>
  (amounts[key] ?? 0) * (moles[oxide] ?? 0);

/** The other wanted oxide of which a material brings the largest part of what is there. */
function neededFor(
  material: Restatable,
  { amounts, unity, wanted, counted, shelf }: Restating,
  besides: Oxide,
): Oxide | undefined {
  const whole = (oxide: Oxide) =>
    shelf.reduce((sum, each) => sum + broughtBy(each, amounts, oxide), 0) || 1;
  return counted
    .filter((oxide) => oxide !== besides && (wanted[oxide] ?? 0) > 0 && (unity[oxide] ?? 0) > 0)
    .filter((oxide) => brings(material, oxide))
    .map((oxide) => ({ oxide, part: broughtBy(material, amounts, oxide) / whole(oxide) }))
    .sort((a, b) => b.part - a.part)[0]?.oxide;
}

/** A condition without which this oxide would be missed by half as much at most. */
function inTheWay({ wanted, unity, relaxed }: Restating, oxide: Oxide): string | undefined {
  const missed = (of: Moles) => missOf(wanted[oxide] ?? 0, of[oxide] ?? 0);
  return relaxed.find((each) => missed(each.unity) <= missed(unity) / 2)?.says;
}
