// Opens a mix, or a recipe that was seen lately, where there is no network: a mix from the copy that
// its own page keeps, a recipe from what sw-recipes.js keeps of it. Nothing else is answered from here.
importScripts("/assets/sw-recipes.js");

const patience = 8_000;

addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil(clients.claim()));

addEventListener("message", (event) => {
  const { seen } = event.data ?? {};
  if (seen) event.waitUntil(recipes.see(seen).catch(() => null));
});

addEventListener("fetch", (event) => {
  const { method, mode, url } = event.request;
  const { origin, pathname } = new URL(url);
  if (origin !== location.origin) return;
  if (method !== "GET") {
    // Whoever signs in or out leaves no page of theirs to the next, nor what they looked at.
    if (/^\/(session|session\/end|people)$/.test(pathname)) {
      event.waitUntil(Promise.all([caches.delete("mix-pages"), recipes.forget()]));
    }
    return;
  }
  const opensMix = mode === "navigate" && /^\/mixes\/[0-9a-f-]{36}$/.test(pathname);
  if (pathname.startsWith("/assets/")) event.respondWith(answer(event.request));
  else if (opensMix) event.respondWith(recipes.open(event.request, answer));
  else if (mode === "navigate") event.respondWith(recipes.open(event.request, hear));
  else if (pathname.startsWith("/photos/")) event.respondWith(recipes.picture(event.request));
});

const answer = async (request) => {
  const kept = await caches.match(request.url, { ignoreVary: true });
  return hear(request, kept !== undefined).catch((away) => {
    if (!kept) throw away;
    return kept;
  });
};

/** The studio's own answer; where there is something else to show, only so long is waited for it. */
const hear = async (request, isKept) => {
  if (!isKept) return fetch(request);
  // A network may be there and let nothing through.
  const enough = new AbortController();
  const timer = setTimeout(() => enough.abort(), patience);
  try {
    return await fetch(request, { signal: enough.signal });
  } finally {
    clearTimeout(timer);
  }
};
