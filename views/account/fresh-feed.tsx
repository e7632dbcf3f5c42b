/** The address of somebody's feed, shown this once: only its hash is stored. */
export const FreshFeed = ({ link }: { link: string }) => (
  <section>
    <h1>Your feed</h1>
    <div class="field">
      <label for="feed-link">Copy it now: it is shown only here, and only this once</label>
      <textarea id="feed-link" rows={3} readonly>
        {link}
      </textarea>
    </div>
    <p>
      Give it to your feed reader, and to nobody else: whoever has it reads what waits for you. An
      address that you had before works no more.
    </p>
    <p>
      <a href="/account#telling">Back to your account</a>
    </p>
  </section>
);
