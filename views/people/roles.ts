export type Role = "member" | "reviewer" | "manager";

export const roleChoices: readonly { value: Role; label: string }[] = [
  { value: "member", label: "member" },
  { value: "reviewer", label: "reviewer" },
  { value: "manager", label: "manager" },
];

/** What each role is for, said to whoever gives it. */
export const rolesSay =
  "Members publish recipes, tiles and notes. Reviewers are the members whom the studio asks to judge a glaze. Managers also keep the shelf and the people.";
