import type { ShownStop } from "./types.ts";
import { measureWords, proofWords, stirredWords } from "./words.ts";

/** The round on paper: one line a bucket, with boxes to fill in by hand. */
export const RoundSheet = ({ stops }: { stops: readonly ShownStop[] }) => (
  <table class="round-sheet print-only">
    <caption>The buckets, in the order of their names</caption>
    <thead>
      <tr>
        <th scope="col">Bucket</th>
        <th scope="col">Litres</th>
        <th scope="col">Stirred</th>
        <th scope="col">Gravity</th>
        <th scope="col">Flow, s</th>
        <th scope="col">Proof tile</th>
        <th scope="col">Look at</th>
        {boxes.map((name) => (
          <th scope="col">{name}</th>
        ))}
      </tr>
    </thead>
    <tbody>
      {stops.map((stop) => (
        <tr>
          <th scope="row">
            {stop.name}
            <br />
            {stop.recipe.name} {stop.revision}
          </th>
          <td>{stop.litres.toFixed()}</td>
          <td>{stirredWords(stop)}</td>
          <td>{measureWords(stop.gravity)}</td>
          <td>{measureWords(stop.flow)}</td>
          <td>{proofWords(stop)}</td>
          <td>{stop.flags.join(" ")}</td>
          {boxes.map(() => (
            <td class="round-box" />
          ))}
        </tr>
      ))}
    </tbody>
  </table>
);

const boxes = ["✓ stirred", "litres", "gravity", "flow"];
