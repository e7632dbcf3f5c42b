const small = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];

/** Small counts in words, as people say them. */
export const counted = (count: number): string => small[count] ?? String(count);

/** “One recipe is not shown to you.” */
export const leftOutWords = (count: number): string => {
  const words = counted(count);
  const first = words.charAt(0).toUpperCase() + words.slice(1);
  return `${first} ${count === 1 ? "recipe is" : "recipes are"} not shown to you.`;
};

/** “Four glazes from six base materials.” */
export function shelfWords(recipes: number, materials: number): string {
  const words = `${counted(recipes)} ${recipes === 1 ? "glaze" : "glazes"} from ${counted(materials)} base ${materials === 1 ? "material" : "materials"}`;
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}
