import { When } from "../people/when.tsx";
import type { ShownRecall } from "./types.ts";
import { whatWords } from "./words.ts";

/** Every recall, those first that nobody closed. */
export const RecallsPage = ({ items }: { items: readonly ShownRecall[] }) => (
  <section>
    <h1>Recalls</h1>
    <p>
      Lots and buckets that nobody may use, for safety. A reviewer or a manager recalls a lot on its
      page, or a bucket on its page; a manager ends a recall with what was done.
    </p>
    {items.length === 0 ? <p>Nothing was ever recalled here.</p> : null}
    <ul class="waiting">
      {items.map(({ id, of, why, by, at, closing }) => (
        <li>
          <a href={`/recalls/${id}`}>{whatWords(of)}</a>
          <span>
            {closing ? "Closed" : <strong>Open: do not use</strong>}; by {by}, <When at={at} />
          </span>
          <span class="recall-why">{closing ? `${why} Done: ${closing.done}` : why}</span>
        </li>
      ))}
    </ul>
  </section>
);
