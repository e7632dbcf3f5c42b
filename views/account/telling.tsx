import { Choice } from "../parts/field.tsx";

export type ShownWishes = { mail: "off" | "at once" | "daily"; feed: boolean };

type TellingProps = {
  wishes: ShownWishes;
  /** Whether the studio sends mail at all. */
  sendsMail: boolean;
};

const choices = [
  { value: "off", label: "not at all" },
  { value: "at once", label: "within a minute" },
  { value: "daily", label: "once a day at most" },
] as const;

/** How somebody wants to be told what waits for them. */
export const Telling = ({ wishes, sendsMail }: TellingProps) => (
  <section id="telling">
    <h2>Being told what waits for you</h2>
    <p>
      <a href="/waiting">What waits for you</a> is always there when you sign in.
    </p>
    {sendsMail ? null : <p>This studio sends no mail. What you choose here holds once it does.</p>}
    <form method="post" action="/account/mail">
      <Choice label="By mail" name="mail" options={choices} value={wishes.mail} />
      <p class="actions">
        <button type="submit">Keep that</button>
      </p>
    </form>
    <form method="post" action="/account/feed">
      <p>
        {wishes.feed
          ? "Your feed is open. Its address was shown once; a new one ends the one before."
          : "A feed reader can show it too, by an address of your own."}
      </p>
      <p class="actions">
        <button type="submit">{wishes.feed ? "Make a new address" : "Open a feed"}</button>
      </p>
    </form>
    {wishes.feed ? (
      <form method="post" action="/account/feed/end">
        <p class="actions">
          <button type="submit" class="quiet">
            Close the feed
          </button>
        </p>
      </form>
    ) : null}
  </section>
);
