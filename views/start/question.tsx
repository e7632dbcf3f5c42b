import { makings } from "./makings.ts";

/** The first question, each answer a link on. */
export const Question = () => (
  <section>
    <h1>What are you making?</h1>
    <p>
      Say what it is, and read which of the studio's glazes may be used on it now. Where food,
      drink, lips or cutlery touch a piece, only glazes that were approved as functional count.
    </p>
    <ul class="makings">
      {makings.map(({ key, name, says }) => (
        <li>
          <a href={`/start?making=${key}`}>{name}</a>
          <span>{says}</span>
        </li>
      ))}
    </ul>
    <p>
      New to all this? The <a href="/guide">guide</a> says it in plain words. Powders and kilns can
      hurt: <a href="/cautions">what to be careful with</a>.
    </p>
  </section>
);
