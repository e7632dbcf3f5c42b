import type { FoundNote } from "../db/notes.ts";

/** A thread as JSON: what the first note says, where it hangs, and the replies in it. */
export type NoteJson = Omit<FoundNote, "snapshot" | "replies"> & {
  on: string;
  /** When its words were changed last; null where they never were. */
  edited: Date | null;
  replies: NoteJson[];
};

export const noteJson = ({ snapshot, replies, ...note }: FoundNote): NoteJson => ({
  ...note,
  on: snapshot.says,
  edited: note.versions.length > 1 ? (note.versions.at(-1)?.at ?? null) : null,
  replies: replies.map(noteJson),
});
