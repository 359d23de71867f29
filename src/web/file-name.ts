import { foldedName } from '../core/workspace/index.ts';

/** `my-room.plan.yaml`, with a number when there is one already. */
export function fileName(title: string, taken: readonly string[]): string {
  const stem =
    title
      .toLowerCase()
      .normalize('NFKD')
      // an accent parts no word
      .replace(/\p{M}+/gu, '')
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 40) || 'plan';
  for (let n = 1; ; n++) {
    const name = `${stem}${n === 1 ? '' : `-${n}`}.plan.yaml`;
    if (!taken.some((one) => foldedName(one) === foldedName(name))) return name;
  }
}
