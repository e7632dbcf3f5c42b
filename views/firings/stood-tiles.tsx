export type StoodTile = {
  id: string;
  recipe: { slug: string; name: string };
  number: number;
  cone: string;
  clay: string;
  place: string;
  withdrawn: boolean;
};

/** The tiles of a firing, as far as the reader may know of them. */
export const StoodTiles = ({ tiles }: { tiles: readonly StoodTile[] }) =>
  tiles.length === 0 ? (
    <p>No tile that you may see names this firing.</p>
  ) : (
    <ul class="history">
      {tiles.map((tile) => (
        <li>
          {tile.withdrawn ? (
            <s>
              <TileLink {...tile} />
            </s>
          ) : (
            <TileLink {...tile} />
          )}
          <span class="history-message">
            {[
              `Cone ${tile.cone}`,
              ...(tile.clay === "" ? [] : [`on ${tile.clay}`]),
              ...(tile.place === "" ? [] : [tile.place]),
              ...(tile.withdrawn ? ["withdrawn: it counts for nothing"] : []),
            ].join(", ")}
            .
          </span>
        </li>
      ))}
    </ul>
  );

const TileLink = ({ id, recipe, number }: StoodTile) => (
  <a class="kiln-link" href={`/tiles/${id}`}>
    {recipe.name}, revision {number}
  </a>
);
