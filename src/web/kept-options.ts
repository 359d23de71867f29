import type { Plan } from '../core/plan/index.ts';

/** The option that is looked at and the one it is held against: kept by the tab, as its page and its plan are. */
export interface Options {
  readonly option: string | undefined;
  readonly against: string | undefined;
}
const placeOf = (name: string): string => `setwright:options:${name}`;

export function keepOptions(name: string, { option, against }: Options): void {
  try {
    sessionStorage.setItem(placeOf(name), JSON.stringify([option, against]));
  } catch {
    // no room, or forbidden: they are chosen anew
  }
}

/** Those of them that the plan still has. */
export function keptOptions(name: string, plan: Plan | undefined): Partial<Options> {
  try {
    const [option, against] = (JSON.parse(sessionStorage.getItem(placeOf(name)) ?? '[]') as unknown[]).map(
      (id) => plan?.options.find((one) => one.id === id)?.id,
    );
    return { option, against };
  } catch {
    return {};
  }
}
