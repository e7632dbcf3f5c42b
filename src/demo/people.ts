import type { Role } from "../db/people.ts";

/** Who belongs to the demo's studio, by the first name that the rest of its data calls them. */
export const demoPeople = {
  ines: { name: "Ines Okafor", role: "manager", joinedAt: "2026-01-05T08:40:00Z" },
  tam: { name: "Tam Pellew", role: "reviewer", joinedAt: "2026-01-05T10:05:00Z" },
  rukmini: { name: "Rukmini Vale", role: "member", joinedAt: "2026-01-06T17:30:00Z" },
  jonah: { name: "Jonah Brackley", role: "member", joinedAt: "2026-01-07T18:15:00Z" },
  sefton: { name: "Sefton Ayre", role: "member", joinedAt: "2026-01-09T12:20:00Z" },
  marta: { name: "Marta Quill", role: "member", joinedAt: "2026-09-02T18:45:00Z" },
} as const satisfies Record<string, { name: string; role: Role; joinedAt: string }>;

export type Who = keyof typeof demoPeople;

export const everyone = Object.keys(demoPeople) as readonly Who[];

/** What somebody signs in with; the domain is one that never exists (RFC 2606). */
export const emailOf = (who: Who): string => `${who}@saltmarsh.example`;
