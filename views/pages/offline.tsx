/** What a browser keeps for reading where there is no network. Its worker lists it in here. */
export const Offline = ({ most }: { most: number }) => (
  <article>
    <h1>Kept for when there is no network</h1>
    <p>
      Your browser keeps the last {most} recipes that you looked at, as everybody sees them: with
      their standing, what to weigh and the pictures of their tiles. Each copy says of when it is;
      ask whether it still holds before you mix from it or glaze a mug with it.
    </p>
    <p data-kept="">
      Nothing is kept here yet. Look at a recipe that everybody may see while there is a network.
    </p>
    <p>
      What is kept goes when somebody signs in or out on this browser. Notes, stock and everything
      else that is for people of the studio is never kept.
    </p>
    <p>
      <a href="/recipes">To the library</a>, where there is a network
    </p>
  </article>
);
