// A mix where the network comes and goes: what is put in is kept here first, shown at once, and sent
// one after another. Without this the page's own forms do the same with a network.
import { openQueue, send } from "/assets/mix-queue.js";
import { show } from "/assets/mix-shown.js";
import { isDone, watch } from "/assets/mix-watch.js";

const mix = document.querySelector("[data-mix]");
const isOpen = mix.dataset.is === "open";
const person = document.getElementById("main").dataset.viewer;
const owner = { person, name: mix.dataset.person, mix: mix.dataset.mix };
const { heard, look } = watch(mix);

// A browser may keep nothing; then the forms go the plain way.
const queue = await openQueue(owner).catch(() => null);

let sending = null;
let underWay = 0;
let renderings = 0;

const render = async () => {
  if (!queue) return;
  renderings += 1;
  const own = renderings;
  const waits = await queue.list();
  if (own === renderings) show(waits, heard, { isSending: underWay > 0, on });
};

/** Looks, and forgets what was sent before: from then on the page itself tells of it. */
const lookAgain = async () => {
  const { mine } = await queue.list();
  const isHeard = await look();
  if (isHeard) await queue.remove(...mine.flatMap(({ id, sent }) => (sent ? [id] : [])));
  return isHeard;
};

const isWaiting = ({ sent, refused }) => !sent && !refused;

const putAside = async ({ id, does, key }, refused) => {
  const { mine } = await queue.list();
  const back = mine.find((other) => does !== "undo" && other.does === "undo" && other.key === key);
  return back ? queue.remove(id, back.id) : queue.change(id, { refused });
};

/** @returns whether the next one can go. */
const sendOne = async (entry) => {
  if (!(await queue.change(entry.id, { tried: true }))) return true;
  const { came, ...why } = await send(entry);
  switch (came) {
    case "sent":
      await queue.change(entry.id, { sent: true });
      return true;
    case "refused":
      await putAside(entry, why);
      return true;
    case "somebody-else":
      location.reload();
      return false;
    default:
      heard.signedOut = came === "signed-out";
      heard.away = { away: "without a network", later: "the studio does not answer" }[came] ?? "";
      return false;
  }
};

const run = async () => {
  await render();
  if ((await queue.list()).mine.length === 0) return;
  // Nothing is tried before the studio is heard: what was not tried can be taken back right here.
  let goesOn = await lookAgain();
  while (goesOn) {
    const next = (await queue.list()).mine.find(isWaiting);
    if (!next) break;
    goesOn = await sendOne(next);
  }
  if (goesOn) await lookAgain();
};

const shownAfter = async (step) => {
  underWay += 1;
  try {
    await step();
  } finally {
    underWay -= 1;
    await render();
  }
};

const sendAll = () =>
  shownAfter(async () => {
    sending ??= run().finally(() => {
      sending = null;
    });
    await sending;
  });

/** Changes what waits, and sends it: also what came in while the last of a run was being looked at. */
const change = (line, step) =>
  shownAfter(async () => {
    await step();
    await render();
    if (document.activeElement === document.body) focusOn(line);
    await sending;
    await sendAll();
  });

const focusOn = (line) => {
  const heading = line.querySelector("h3");
  heading.tabIndex = -1;
  heading.focus({ preventScroll: true });
};

const lineOf = ({ n }) => document.getElementById(`line-${n}`);

const on = {
  takeBack: (entry) => change(lineOf(entry), () => queue.takeBack(entry.id)),
  again: (entry) => {
    const adds = entry.adds || entry.refused.onTop;
    return change(lineOf(entry), () => queue.change(entry.id, { refused: null, adds }));
  },
  drop: (entry) => change(lineOf(entry), () => queue.remove(entry.id)),
};

// Where a page is not safely served the browser makes no UUIDs.
const newKey = () =>
  crypto.randomUUID?.() ??
  Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16)).join("-");

const isWeight = (typed) => /^\d{1,7}(\.\d{1,4})?$/.test(typed) && Number(typed) > 0;

const entryOf = (form, line) => {
  const n = Number(line.id.replace("line-", ""));
  const { key, grams, lot, adds } = form.elements;
  if (!form.matches(".mix-form"))
    return { n, does: "undo", key: key.value, grams: form.dataset.grams };
  const called = lot.selectedOptions[0].dataset.called;
  const onTop = Boolean(adds ?? form.closest("details"));
  return {
    n,
    does: "tick",
    key: newKey(),
    grams: grams.value.trim(),
    lot: lot.value,
    called,
    adds: onTop,
  };
};

const takeIn = (form, line) =>
  change(line, async () => {
    const id = await queue.add(entryOf(form, line)).catch(() => null);
    if (id === null) return form.submit();
    isDone(form);
    focusOn(line);
    const folded = form.closest("details");
    if (!folded) return;
    folded.open = false;
    form.elements.grams.value = "";
  });

const taken = new WeakSet();

const onSubmit = async (event) => {
  const form = event.target;
  const line = form.closest(".mix-line");
  if (!line) return;
  event.preventDefault();
  const { grams } = form.elements;
  if (grams && !isWeight(grams.value.trim())) {
    grams.setCustomValidity("Grams, such as 412.5, with four decimals at most.");
    grams.reportValidity();
    return;
  }
  // A double tap is one tick.
  if (taken.has(form)) return;
  taken.add(form);
  await takeIn(form, line);
  taken.delete(form);
};

const watching = async () => {
  if (document.visibilityState === "visible") await look();
  await render();
  setTimeout(watching, 5_000);
};

const stayAwake = () =>
  document.visibilityState === "visible" && navigator.wakeLock?.request("screen").catch(() => null);

if (queue) {
  mix.addEventListener("submit", onSubmit);
  mix.addEventListener("input", ({ target }) => target.setCustomValidity?.(""));
  window.addEventListener("online", () => look().then(sendAll));
  setInterval(sendAll, 10_000);
  sendAll();
}
if (isOpen) {
  watching();
  stayAwake();
  document.addEventListener("visibilitychange", stayAwake);
  document.getElementById("mix-without-tls").hidden = isSecureContext;
  navigator.serviceWorker?.register("/sw.js").catch(() => null);
}
