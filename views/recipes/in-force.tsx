export type Narrowed = { says: string; without: string };

type InForceProps = { narrowed: readonly Narrowed[]; all: number | "1000+" | undefined };

/** What narrows the list, each a link that takes it off, and how many fit all of it. */
export const InForce = ({ narrowed, all }: InForceProps) =>
  narrowed.length === 0 ? null : (
    <div class="in-force">
      <h2 class="in-force-heading">
        {all === undefined ? "Asked for" : `${all} ${all === 1 ? "glaze" : "glazes"} with`}
      </h2>
      <ul class="in-force-list">
        {narrowed.map(({ says, without }) => (
          <li>
            <a class="button quiet" href={without}>
              <span class="hidden-words">Take off: </span>
              {says} <span aria-hidden="true">×</span>
            </a>
          </li>
        ))}
        <li>
          <a href="/recipes">Show all</a>
        </li>
      </ul>
    </div>
  );
