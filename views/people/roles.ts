export type Role = "member" | "reviewer" | "manager";

/** What each role may do, for whoever gives it. */
export const roleChoices: readonly { value: Role; label: string }[] = [
  { value: "member", label: "member: publishes recipes, tiles and notes" },
  { value: "reviewer", label: "reviewer: a member who also reviews for functional ware" },
  { value: "manager", label: "manager: a reviewer who also keeps the shelf and the people" },
];
