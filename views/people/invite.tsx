import type { Role } from "./roles.ts";
import { When } from "./when.tsx";

type InviteProps = { link: string; role: Role; expiresAt: Date };

/** A fresh link, shown this once: only its hash is stored. */
export const FreshInvite = ({ link, role, expiresAt }: InviteProps) => (
  <section>
    <h1>A link for a {role}</h1>
    <div class="field">
      <label for="invite-link">Copy it now: it is shown only here, and only this once</label>
      <textarea id="invite-link" rows={3} readonly>
        {link}
      </textarea>
    </div>
    <p>
      It lets one person join as {role}, once, until <When at={expiresAt} clock />. Hand it to them
      yourself: whoever holds it can use it.
    </p>
    <p>
      <a href="/people#invites">Back to people and links</a>
    </p>
  </section>
);
