import { z } from "zod";

const shape = /^([a-z0-9]+(?:-[a-z0-9]+)*)(?:@([1-9]\d{0,6}))?$/;

/** A recipe, or one revision of it, as people write it: `slack-water`, `slack-water@2`. */
export const revisionAddress = z
  .string()
  .trim()
  .transform((typed, context): { slug: string; number: number | undefined } => {
    const [, slug, number] = shape.exec(typed) ?? [];
    if (slug && slug.length <= 80) return { slug, number: number ? Number(number) : undefined };
    context.addIssue({
      code: "custom",
      message: `“${typed.slice(0, 60)}” is not such as slack-water or slack-water@2.`,
    });
    return z.NEVER;
  });
