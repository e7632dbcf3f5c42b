/** What is answered within so many milliseconds; undefined where it is not, or fails. */
export async function soon<Found>(
  asked: Promise<Found>,
  mostMs: number,
): Promise<Found | undefined> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<undefined>((resolve) => {
    timer = setTimeout(() => resolve(undefined), mostMs);
  });
  const found = await Promise.race([asked.catch(() => undefined), late]);
  clearTimeout(timer);
  return found;
}
