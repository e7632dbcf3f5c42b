import { type Hazard, hazardName, hazards, hazardWords } from "./hazard-words.ts";
import type { UseIs } from "./standing.tsx";

/** The line that every page of powders carries. */
export const DustCaution = () => (
  <section class="caution">
    <p>
      <strong>Dust.</strong> {hazardWords.dust}
    </p>
    <p>
      If you are pregnant, or children are in the room, ask the manager before any powder is opened.
    </p>
    <Deference />
  </section>
);

/** What to be careful with, in a fixed order and each once. No hazard shows nothing. */
export const Cautions = ({ hazards: given }: { hazards: readonly Hazard[] }) => {
  const named = hazards.filter((hazard) => given.includes(hazard));
  return named.length === 0 ? null : (
    <section class="caution">
      <dl>
        {named.map((hazard) => (
          <div>
            <dt>{hazardName[hazard]}</dt>
            <dd>{hazardWords[hazard]}</dd>
          </div>
        ))}
      </dl>
      <p>
        Waste glaze and wash water are collected and handed in by local rules, never poured down the
        drain. Nobody eats or drinks in the glaze room.
      </p>
      <Deference />
    </section>
  );
};

/** What a mark says and does not say about food, for the recipe page, the label and the card. */
export const FoodCaution = ({ use }: { use: UseIs }) => (
  <section class="caution">
    {use === "decorative" ? (
      <p>
        <strong>Not for food.</strong> Keep this glaze away from everything that food, drink, lips
        or cutlery touch, rims and lids and pet bowls with it. A clear glaze on top does not change
        that.
      </p>
    ) : (
      <p>
        <strong>Food.</strong> This library says what was tested, how and when. It does not certify
        a glaze for food: a test holds for the pieces tested, and for this glaze alone, not where it
        overlaps another.
      </p>
    )}
    <p>
      What may be sold for food is a country's law: follow the local rules, and ask a licensed
      laboratory.
    </p>
  </section>
);

/** What a leach test is, and who can make one. */
export const LeachCaution = () => (
  <section class="caution">
    <p>
      <strong>Leach tests.</strong> A laboratory fills the fired piece with acid and measures what
      came out of the glaze. No test at home stands in for that: vinegar, lemon and dishwasher show
      damage that can be seen, and metals leave without any.
    </p>
    <p>
      A report belongs to the glaze, clay body, firing and batch named on it. Limits are a country's
      law and differ; ask a licensed laboratory which ones hold for you.
    </p>
  </section>
);

/** What a firing gives off, for every page that tells of firings. */
export const KilnCaution = () => (
  <section class="caution">
    <p>
      <strong>Kiln fumes.</strong> A firing gives off carbon monoxide, fluorine and sulphur gases,
      and metals as fume; much of it has no smell. Vent the kiln to the outside, and nobody works,
      eats or sleeps in its room while it fires. <a href="/cautions#kiln">More about fumes</a>
    </p>
    <Deference />
  </section>
);

const Deference = () => (
  <p class="caution-deference">
    The supplier's safety data sheet and the rules where you are come before this page.
  </p>
);
