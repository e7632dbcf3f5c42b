export * from "./answers.ts";
export * from "./events.ts";
export * from "./materials.ts";
export * from "./notes.ts";
export * from "./people.ts";
export * from "./recipes.ts";
export * from "./studios.ts";
export * from "./tiles.ts";
