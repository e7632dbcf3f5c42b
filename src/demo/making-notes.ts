import { closeObjection } from "../db/closing.ts";
import { findNote, type KnownNote, putNote } from "../db/notes.ts";
import { replyTo } from "../db/replies.ts";
import { type Entry, entry, known, type Making } from "./diary.ts";
import { revisionOf } from "./making-library.ts";
import { type DemoNote, demoNotes } from "./notes.ts";

/** What was said of the recipes, each with the replies to it and the end of what was an objection. */
export const noteEntries = (): Entry[] => demoNotes.flatMap(threadEntries);

function threadEntries(note: DemoNote): Entry[] {
  let put = "";
  const first = entry(note.at, async (making, at) => {
    put = await putFirst(making, note, at);
  });
  const replies = (note.replies ?? []).map(({ by, text, at: when }) =>
    entry(when, async (making, at) => {
      const act = { by: known(making.ids, by), at };
      await replyTo(making.db, { note: await find(making, put), text, ...act });
    }),
  );
  const { closed } = note.objects ?? {};
  if (!closed) return [first, ...replies];
  const end = entry(closed.at, async (making, at) => {
    const act = { by: known(making.ids, closed.by), at };
    const given = { note: await find(making, put), text: closed.text, overruled: false, ...act };
    const { kind } = await closeObjection(making.db, given);
    if (kind !== "closed") throw new Error(`the objection to ${note.glaze} was not closed`);
  });
  return [first, ...replies, end];
}

async function putFirst(making: Making, note: DemoNote, at: Date): Promise<string> {
  const { glaze, number, line, by, text, objects } = note;
  const revision = await revisionOf(making, glaze, number);
  const place = revision.lines.find(({ material }) => material.name === line)?.position;
  const anchor =
    line === undefined
      ? ({ kind: "whole" } as const)
      : ({ kind: "line", key: String(place) } as const);
  const recipeId = known(making.recipeIds, glaze);
  const act = { by: known(making.ids, by), at };
  const blocking = objects !== undefined;
  const given = { recipeId, revision, anchor, text, blocking, ...act };
  const put = await putNote(making.db, given);
  if (put.kind !== "put") throw new Error(`${glaze}: ${put.says}`);
  return put.id;
}

async function find({ db, ids }: Making, id: string): Promise<KnownNote> {
  const note = await findNote(db, { id, reader: { id: known(ids, "ines"), role: "manager" } });
  if (!note) throw new Error("the demo answers a note before it was put");
  return note;
}
