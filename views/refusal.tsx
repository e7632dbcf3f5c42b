type RefusalProps = {
  title: string;
  says: string;
  faults: readonly { path: string; says: string }[];
  /** The page to come back to after signing in. */
  next: string | undefined;
};

/** Says what is wrong and what can be done, where no form has to be shown again. */
export const Refusal = ({ title, says, faults, next }: RefusalProps) => (
  <section>
    <h1>{title}</h1>
    {faults.length > 0 ? (
      <ul>
        {faults.map((fault) => (
          <li>{fault.says}</li>
        ))}
      </ul>
    ) : (
      <p>{says}</p>
    )}
    <p>
      <a href="/recipes">To the library</a> or{" "}
      <a href={next ? `/session/new?next=${encodeURIComponent(next)}` : "/session/new"}>sign in</a>
    </p>
  </section>
);
