type FreshHandoutProps = {
  link: string;
  name: string;
  back: string;
  recipes: readonly { name: string; revision: number }[];
  leftOut: readonly string[];
  unseen: number;
};

/** A fresh link to a handout, shown this once: only its hash is stored. */
export const FreshHandout = ({ link, name, back, recipes, leftOut, unseen }: FreshHandoutProps) => (
  <section>
    <h1>A handout of {name}</h1>
    <div class="field">
      <label for="handout-link">Copy it now: it is shown only here, and only this once</label>
      <textarea id="handout-link" rows={3} readonly>
        {link}
      </textarea>
    </div>
    <p>
      Whoever holds it reads{" "}
      {recipes.map((each) => `${each.name}, revision ${each.revision}`).join("; ")} without an
      account, until you end the link. It shows nothing else of the studio, and how each stands on
      the day it is read.
    </p>
    {leftOut.length > 0 || unseen > 0 ? (
      <>
        <h2>Left out</h2>
        <ul>
          {leftOut.map((says) => (
            <li>{says}</li>
          ))}
          {unseen > 0 ? <li>What you may not see yourself: {unseen}.</li> : null}
        </ul>
      </>
    ) : null}
    <p>
      <a href={`${back}#handouts`}>Back to {name} and its links</a>
    </p>
  </section>
);
