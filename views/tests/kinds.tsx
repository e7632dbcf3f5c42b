import { commonPractice, kindWords, type TestKind, testKinds } from "./kind-words.ts";

/** One test: how it is usually made, what it can show and what it cannot. */
export const KindExplained = ({ kind }: { kind: TestKind }) => {
  const { usually, shows, cannot } = kindWords[kind];
  return (
    <dl class="tile-facts">
      <div>
        <dt>Usually</dt>
        <dd>
          {usually} {kind === "leach" ? null : commonPractice}
        </dd>
      </div>
      <div>
        <dt>It shows</dt>
        <dd>{shows}</dd>
      </div>
      <div>
        <dt>It cannot show</dt>
        <dd>{cannot}</dd>
      </div>
    </dl>
  );
};

/** Every kind of test, for whoever is about to make one. */
export const KindsExplained = () => (
  <details>
    <summary>How each test is made, and what it can and cannot show</summary>
    {testKinds.map((kind) => (
      <section>
        <p class="test-kind-name">{kindWords[kind].name}</p>
        <KindExplained kind={kind} />
      </section>
    ))}
  </details>
);
