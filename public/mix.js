// Two people weigh one mix: what the other one put in appears here by itself. Only what says how
// things stand is replaced, and a form only while nobody has begun to fill it in.
(() => {
  const every = 5_000;
  const begun = new WeakSet();
  let tag = null;

  document.addEventListener("input", ({ target }) => {
    const place = target.closest?.("[data-live]");
    if (place) begun.add(place);
  });

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

  const look = async (address) => {
    const told = await fetch(address, {
      cache: "no-store",
      headers: { Accept: "application/json", ...(tag && { "If-None-Match": tag }) },
    });
    if (told.status !== 200 || told.redirected) return;
    const { is } = await told.json();
    const page = await fetch(address, { headers: { Accept: "text/html" } });
    if (page.status !== 200 || page.redirected) return;
    if (is !== "open") return location.reload();
    renew(new DOMParser().parseFromString(await page.text(), "text/html"));
    tag = told.headers.get("ETag");
  };

  const watch = async () => {
    const mix = document.querySelector("[data-mix]");
    if (!mix) return;
    // The network may be away for a while; the next look finds out.
    if (document.visibilityState === "visible") await look(mix.dataset.mix).catch(() => null);
    setTimeout(watch, every);
  };
  watch();
})();
