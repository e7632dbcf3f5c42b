import { Day } from "../materials/day.tsx";
import { OxideName } from "../parts/oxide.tsx";
import { plainNumber } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";
import type { ShownHandout, ShownPowder } from "./types.ts";
import { powderWords } from "./words.ts";

/** What to buy by which name, how much of it, what not to buy, and which analysis was counted on. */
export const Powders = ({ handout }: { handout: ShownHandout }) => {
  const { powders, weight, tub, region, pieces } = handout;
  const each = pieces.length === 1 ? "" : " of each";
  return (
    <section id="powders" class="handout-powders">
      <h2>What to buy, and what not</h2>
      <p>
        {region === ""
          ? "By the names of the studio that made it."
          : `By their names in ${region}, other names in brackets.`}{" "}
        A name alone settles nothing: compare the supplier's analysis with the one below, which is
        what the glaze was worked out with.
      </p>
      <Wide label="How much to buy">
        <table class="lines">
          <caption>To buy, additions and all, rounded up</caption>
          <thead>
            <tr>
              <th scope="col">Powder</th>
              <th scope="col" class="number">
                100 g test{each}
              </th>
              <th scope="col" class="number">
                Tub of {tub.toFixed()} {weight}
                {each}
              </th>
            </tr>
          </thead>
          <tbody>
            {powders.map((powder) => (
              <tr>
                <th scope="row">{powderWords(powder)}</th>
                <td class="number">{powder.buy.testGrams.toFixed(1)} g</td>
                <td class="number">
                  {powder.buy.tub.toFixed(weight === "g" ? 0 : 3)} {weight}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
      <dl class="handout-bags">
        {powders.map((powder) => (
          <Bag powder={powder} region={region} />
        ))}
      </dl>
    </section>
  );
};

const Bag = ({ powder, region }: { powder: ShownPowder; region: string }) => (
  <div>
    <dt>
      {powderWords(powder)}
      {powder.stillSold ? null : <strong class="no-longer"> no longer sold</strong>}
    </dt>
    {powder.called === null ? (
      <dd>
        <strong>No name of it in {region} is on record.</strong> Ask for it by its analysis.
      </dd>
    ) : null}
    {powder.called?.caution ? <dd>{powder.called.caution}</dd> : null}
    {powder.elsewhere.length === 0 ? null : (
      <dd>
        Elsewhere: {powder.elsewhere.map((each) => `${each.name} (${each.region})`).join(", ")}.
      </dd>
    )}
    {powder.lookAlikes.map((other) => (
      <dd class="names-not">
        <strong>Not this one:</strong> “{other.word}” is also a name of {other.name}
        {other.region ? ` in ${other.region}` : " in the studio that made this"}. {other.caution}
      </dd>
    ))}
    {powder.analyses.map((analysis) => (
      <dd>
        {analysis.source}, {analysis.measuredOn ? <Day on={analysis.measuredOn} /> : "not dated"}:{" "}
        {analysis.oxides.map(({ oxide, percent }, at) => (
          <>
            {at > 0 ? ", " : ""}
            <OxideName oxide={oxide} /> {plainNumber(percent, 1)}
          </>
        ))}
        ; loss {plainNumber(analysis.loss, 1)} %.
        {powder.analyses.length > 1 ? ` For ${analysis.of.join(", ")}.` : ""}
      </dd>
    ))}
    {powder.unknownIn.length === 0 ? null : (
      <dd>
        <strong>No analysis of it is on record</strong> for {powder.unknownIn.join(", ")}: what is
        in it is not known, lead and cadmium included.
      </dd>
    )}
  </div>
);
