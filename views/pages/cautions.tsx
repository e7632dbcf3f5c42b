import type { Caution } from "./cautions-words.ts";

/** The cautions of the glaze room on one page, to read and to print. */
export const CautionsPage = ({ cautions }: { cautions: readonly Caution[] }) => (
  <article>
    <h1>What to be careful with</h1>
    <p>
      Most of what harms in a glaze room can be kept away by those who know what is in the tubs.
      This page says the usual things, shortly; safety data sheets and local rules go further.
    </p>
    <nav aria-label="On this page">
      <ul class="rooms">
        {cautions.map(({ id, title }) => (
          <li>
            <a href={`#${id}`}>{title}</a>
          </li>
        ))}
      </ul>
    </nav>
    {cautions.map(({ id, title, says, each = [] }) => (
      <section aria-labelledby={id}>
        <h2 id={id}>{title}</h2>
        {says.map((sentence) => (
          <p>{sentence}</p>
        ))}
        {each.length === 0 ? null : (
          <div class="caution">
            <dl>
              {each.map((material) => (
                <div>
                  <dt>{material.name}</dt>
                  <dd>{material.says}</dd>
                </div>
              ))}
            </dl>
          </div>
        )}
      </section>
    ))}
  </article>
);
