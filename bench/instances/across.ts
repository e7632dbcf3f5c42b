import { randomUUID } from "node:crypto";
import type { App } from "../sheets/app.ts";
import { Person, publish, recipeOf } from "./person.ts";
import { hold, promised } from "./promises.ts";

type Room = {
  origin: string;
  instances: readonly [App, App];
  manager: Person;
  member: Person;
};

/** What people see of there being two instances: nothing. */
export async function acrossInstances({ origin, instances, manager, member }: Room): Promise<void> {
  const [one, other] = instances;

  await promised("whoever signs in at one instance is signed in at every other", async () => {
    const signedIn = new Person("Jonah Brackley");
    await signedIn.signIn(one.url);
    const by = new Map<string, number>();
    for (let asked = 0; asked < 20; asked += 1) {
      const answer = await signedIn.ask(origin, "/account");
      hold(answer.status === 200, `${answer.by} answered ${answer.status}`);
      by.set(answer.by, (by.get(answer.by) ?? 0) + 1);
    }
    hold(by.size === 2, `only ${[...by.keys()]} answered`);
    await signedIn.ask(one.url, "/session", { method: "DELETE" });
    const after = await signedIn.ask(other.url, "/account");
    hold(after.status === 401, `signed out at one, the other answered ${after.status}`);
    return `20 pages in turn, ${[...by].map((pair) => pair.join(" answered ")).join(", ")}; signed out at one, the other asks to sign in`;
  });

  await promised(
    "ten wrong passwords are looked at in a quarter of an hour, not ten each",
    async () => {
      const tries = { email: "tam@saltmarsh.example", password: "not the right one" };
      const answers: number[] = [];
      for (let asked = 0; asked < 12; asked += 1) {
        const { url } = instances[asked % 2] ?? one;
        answers.push((await new Person("Tam").ask(url, "/session", { json: tries })).status);
      }
      const refused = answers.indexOf(429);
      hold(refused === 10, `answers in turn: ${answers.join(" ")}`);
      return "the eleventh try was refused, and the twelfth at the other instance";
    },
  );

  await promised("what is said at one instance reaches a page that the other made", async () => {
    const published = await publish(member, one.url, "Wrack Line");
    if (!published || "refused" in published) throw new Error("the recipe was not published");
    const path = `/recipes/${published.slug}`;
    await manager.get(other.url, path);
    const note = { text: "Runs over the foot at cone 6.", blocking: true };
    await manager.send(other.url, `${path}/notes`, note);
    const { items } = await member.get<{ items: unknown[] }>(one.url, `${path}/news?since=0`);
    hold(items.length > 0, "the page's next question brought nothing");
    const waiting = await member.get<{ items: unknown[] }>(one.url, "/waiting");
    hold(waiting.items.length > 0, "nothing waits for whose recipe it is");
    return `the page's next question (it asks every 20 s) brought ${items.length} lines, and it waits for whose recipe it is`;
  });

  await promised("a form that is sent to both at once is carried out once", async () => {
    const sent = { json: recipeOf("Double Tap"), key: randomUUID() };
    const answers = await Promise.all(
      instances.map(({ url }) => member.ask(url, "/recipes", sent)),
    );
    const slugs = new Set(answers.map(({ json }) => json.slug));
    hold(
      slugs.size === 1 && answers.every(({ status }) => status === 201),
      `answers ${answers.map(({ status, json }) => `${status} ${json.slug}`).join(", ")}`,
    );
    const { items } = await member.get<{ items: unknown[] }>(origin, "/recipes?q=double+tap");
    hold(items.length === 1, `${items.length} recipes are there`);
    return "both answered with the same recipe, and there is one";
  });
}
