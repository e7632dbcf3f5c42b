import { inDegrees } from "../parts/degrees.ts";
import { guide, type PlacedPage } from "./guide.ts";
import type { GuidePage } from "./types.ts";

/** The pages of the guide by what they are about. */
export const GuideContents = () => (
  <article>
    <h1>Guide</h1>
    <p>
      Short pages in plain words, in the order in which a newcomer needs them. Each of them prints
      on its own. Underlined words elsewhere lead here.
    </p>
    <ol class="guide-contents">
      {guide.map(({ slug, title, short }) => (
        <li>
          <a href={`/guide/${slug}`}>{title}</a>
          <span>{short}</span>
        </li>
      ))}
    </ol>
    <h2>Beside the guide</h2>
    <ul class="guide-contents">
      <li>
        <a href="/guide/names">Names of powders by region</a>
        <span>What to ask for where you are, and which look-alike not to buy.</span>
      </li>
      <li>
        <a href="/start">What are you making?</a>
        <span>From the piece in your hand to a glaze that may be used on it.</span>
      </li>
      <li>
        <a href="/cautions">What to be careful with</a>
        <span>The cautions of the glaze room, one by one.</span>
      </li>
    </ul>
  </article>
);

/** One page: its sections, its worked numbers, who comes before it, and the ways on. */
export const GuidePageView = ({ page, previous, next }: PlacedPage) => (
  <article class="guide-page">
    <h1>{page.title}</h1>
    <p>{page.short}</p>
    {page.sections.map(({ id, title, says }) => (
      <section aria-labelledby={id}>
        <h2 id={id}>{title}</h2>
        {says.map((sentence) => (
          <p>{inDegrees(sentence)}</p>
        ))}
      </section>
    ))}
    <Worked page={page} />
    {page.defers ? (
      <section class="caution" aria-label="Who comes before this page">
        <p>{page.defers}</p>
        <p>
          <a href="/cautions">What to be careful with</a>
        </p>
      </section>
    ) : null}
    <p class="actions">
      <button type="button" class="quiet" data-print hidden>
        Print this page
      </button>
    </p>
    <nav aria-label="Guide">
      <ul class="guide-ways">
        {previous ? (
          <li>
            <a href={`/guide/${previous.slug}`} rel="prev">
              Before: {previous.title}
            </a>
          </li>
        ) : null}
        <li>
          <a href="/guide">All pages</a>
        </li>
        {next ? (
          <li>
            <a href={`/guide/${next.slug}`} rel="next">
              Next: {next.title}
            </a>
          </li>
        ) : null}
      </ul>
    </nav>
  </article>
);

const Worked = ({ page: { worked = [] } }: { page: GuidePage }) =>
  worked.length === 0 ? null : (
    <section aria-labelledby="worked">
      <h2 id="worked">In numbers</h2>
      {worked.map((sentence) => (
        <p>{inDegrees(sentence)}</p>
      ))}
    </section>
  );
