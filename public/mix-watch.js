// Two people weigh one mix: what the other one put in appears here by itself. Only what says how
// things stand is replaced, and a form only while nobody has begun to fill it in.
const patience = 15_000;
const begun = new WeakSet();

document.addEventListener("input", ({ target }) => {
  const place = target.closest?.("[data-live]");
  if (place) begun.add(place);
});

/** What was typed in this form is done with. */
export const isDone = (form) => begun.delete(form.closest("[data-live]"));

const isBegun = (place) => begun.has(place) || place.contains(document.activeElement);

const renew = (page) => {
  for (const fresh of page.querySelectorAll("[data-live]")) {
    const old = document.getElementById(fresh.id);
    if (!old || old.dataset.live === fresh.dataset.live || isBegun(old)) continue;
    old.replaceWith(document.adoptNode(fresh));
  }
  for (const line of page.querySelectorAll(".mix-line")) {
    const old = document.getElementById(line.id);
    if (old) old.className = line.className;
  }
};

// Only where there is TLS; without it the page has to stay open.
const stores = globalThis.caches;

const pathsOfAssets = () =>
  new Set(
    performance
      .getEntriesByType("resource")
      .map(({ name }) => new URL(name).pathname)
      .filter((path) => path.startsWith("/assets/")),
  );

const forgetPages = () => stores?.delete("mix-pages");

/** Looks at a mix: `look` answers whether the studio was heard, `heard` says what was heard last. */
export const watch = (mix) => {
  const { mix: address, is: shown, asOf } = mix.dataset;
  const viewer = document.getElementById("main").dataset.viewer;
  const heard = { at: new Date(asOf), away: "", signedOut: false };
  let tag = null;
  let hasAssets = false;

  const ask = (headers) =>
    fetch(address, { cache: "no-store", headers, signal: AbortSignal.timeout(patience) });

  const keep = async (page) => {
    if (!hasAssets) await (await stores.open("mix-assets")).addAll([...pathsOfAssets()]);
    hasAssets = true;
    await (await stores.open("mix-pages")).put(address, page);
  };

  const read = async (told) => {
    const { is } = await told.json();
    const page = await ask({ Accept: "text/html" });
    if (page.status !== 200 || page.redirected) return false;
    const copy = page.clone();
    const fresh = new DOMParser().parseFromString(await page.text(), "text/html");
    if (fresh.getElementById("main")?.dataset.viewer !== viewer || is !== shown) {
      await forgetPages();
      location.reload();
      return false;
    }
    renew(fresh);
    tag = told.headers.get("ETag");
    // Where a copy has no room the page works as before.
    if (stores) await keep(copy).catch(() => null);
    return true;
  };

  const once = async () => {
    try {
      const accept = { Accept: "application/json", ...(tag && { "If-None-Match": tag }) };
      const told = await ask(accept);
      heard.signedOut = told.status === 401;
      heard.away = "";
      if (heard.signedOut) await forgetPages();
      const isRead = told.status === 304 || (told.status === 200 && (await read(told)));
      if (isRead) heard.at = new Date();
      else if (!heard.signedOut) heard.away = "the studio does not answer";
      return isRead;
    } catch {
      heard.away = "without a network";
      return false;
    }
  };

  // One after another, so that an older answer never comes over a newer one.
  let last = Promise.resolve();
  const look = () => {
    last = last.then(once);
    return last;
  };
  return { heard, look };
};
