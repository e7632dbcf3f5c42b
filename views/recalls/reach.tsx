import { When } from "../people/when.tsx";
import type { ShownReach } from "./types.ts";
import { didWords } from "./words.ts";

/** What a recall reaches: people first, since they hold what was glazed. */
export const Reach = ({ reached }: { reached: ShownReach }) => (
  <>
    <People people={reached.people} />
    <Buckets reached={reached} />
    <Tiles tiles={reached.tiles} nameOf={namesOf(reached)} />
  </>
);

const namesOf = ({ buckets }: ShownReach): Map<string, string> =>
  new Map(buckets.map(({ bucket }) => [bucket.id, bucket.name]));

const People = ({ people }: Pick<ShownReach, "people">) => (
  <section id="people">
    <h2>Who had to do with it</h2>
    {people.length === 0 ? (
      <p>
        Nobody is on record. Whoever used a bucket without ticking it is not here: ask in the room.
      </p>
    ) : (
      <>
        <p>Whoever used a bucket without ticking it is not here: ask in the room.</p>
        <ul class="recall-people">
          {people.map(({ name, did }) => (
            <li>
              <strong>{name}</strong>
              <span class="print-only recall-told">told on: </span>
              <ul>
                {did.map(({ what, note, bucket, at }) => (
                  <li>
                    {didWords[what]}, {bucket}, <When at={at} />
                    {note === "" ? null : `: ${note}`}
                  </li>
                ))}
              </ul>
            </li>
          ))}
        </ul>
      </>
    )}
  </section>
);

const Buckets = ({ reached: { buckets, mixes, hidden } }: { reached: ShownReach }) => (
  <section id="buckets">
    <h2>Buckets</h2>
    {buckets.length === 0 ? <p>It is in no bucket.</p> : null}
    <ul>
      {buckets.map(({ bucket, stillIn }) => (
        <li>
          <a href={`/buckets/${bucket.id}`}>{bucket.name}</a>,{" "}
          {stillIn ? <strong>still in it</strong> : "emptied since"}; {bucket.recipe.name}, revision{" "}
          {bucket.number} ({bucket.standing.is}, as before)
          <ul>
            {mixes
              .filter(({ bucketId }) => bucketId === bucket.id)
              .map(({ id, at, people }) => (
                <li>
                  <a href={`/mixes/${id}`}>
                    Mixed <When at={at} />
                  </a>{" "}
                  by {people.map(({ name }) => name).join(", ")}
                </li>
              ))}
          </ul>
        </li>
      ))}
    </ul>
    {hidden === 0 ? null : (
      <p>
        {hidden === 1 ? "One further bucket is" : `${hidden} further buckets are`} of recipes that
        you may not see. A manager sees all.
      </p>
    )}
  </section>
);

type TilesProps = Pick<ShownReach, "tiles"> & { nameOf: Map<string, string> };

const Tiles = ({ tiles, nameOf }: TilesProps) => (
  <section id="tiles">
    <h2>Tiles</h2>
    {tiles.length === 0 ? (
      <p>No tile of it is on record.</p>
    ) : (
      <ul>
        {tiles.map(({ id, bucketId, recipe, cone, by, at }) => (
          <li>
            <a href={`/tiles/${id}`}>
              {recipe}, cone {cone}
            </a>
            , from {nameOf.get(bucketId)}, put on record by {by.name}, <When at={at} />
          </li>
        ))}
      </ul>
    )}
  </section>
);
