type FreshLinkProps = { link: string; recipe: { slug: string; name: string }; number: number };

/** A fresh link to one revision, shown this once: only its hash is stored. */
export const FreshLink = ({ link, recipe, number }: FreshLinkProps) => (
  <section>
    <h1>
      A link to {recipe.name}, revision {number}
    </h1>
    <div class="field">
      <label for="share-link">Copy it now: it is shown only here, and only this once</label>
      <textarea id="share-link" rows={3} readonly>
        {link}
      </textarea>
    </div>
    <p>
      Whoever holds it reads this revision, without an account, until you end the link. It shows
      nothing else of the studio.
    </p>
    <p>
      <a href={`/recipes/${recipe.slug}#links`}>Back to {recipe.name} and its links</a>
    </p>
  </section>
);
