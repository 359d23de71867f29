import { type Edit, lookUp, type Path, type PlainValue, type Units } from '../../core/plan/index.ts';
import { useBench } from '../bench.ts';

/** What a field of a piece holds, and so how it is shown and read. */
export type Holds = 'length' | 'small' | 'lengths' | 'mass' | 'number' | 'words' | Pair;
/** Two figures that are only said together: `450 mm × 200 mm`. */
export interface Pair {
  readonly keys: readonly [string, string];
  readonly of: 'length' | 'mass';
  readonly between: '×' | 'and';
}

/** One more thing that may be said of a piece, by where it stands within its words. */
export interface AskedField {
  readonly key: readonly string[];
  readonly words: string;
  readonly holds: Holds;
  readonly hint?: string;
}
export interface AskedChoice {
  readonly key: readonly string[];
  readonly words: string;
  readonly of: readonly (readonly [string, string])[];
  /** Stands for what is not said; what goes with it when it is chosen: by itself, or all round it. */
  readonly unsaid?: readonly string[];
  /** Of a choice that is no word in the plan. */
  readonly as?: (text: string) => PlainValue;
  /** What must be said with it, for the plan to be one that can be built. */
  readonly along?: (text: string, path: Path) => readonly Edit[];
  /** Of a choice that is more than one word of the plan: which of them holds now, and all that is changed with it. */
  readonly now?: string;
  readonly edits?: (text: string, path: Path) => readonly Edit[];
}
export type Asked = AskedField | AskedChoice;
export interface AskedGroup {
  readonly title: string;
  readonly asked: readonly Asked[];
}

export const field = (key: readonly string[], words: string, holds: Holds, hint?: string): AskedField => ({
  key,
  words,
  holds,
  ...(hint !== undefined && { hint }),
});

/** Where the words of a piece begin: `options`, number, `pieces`, number. */
const PIECE = 4;

/** Says a value, with what is missing round it; or says it no longer, nor what would be left empty round it. */
export function putIn(plain: PlainValue, path: Path, value: PlainValue | undefined): readonly Edit[] {
  let at = path;
  if (value === undefined) {
    if (lookUp(plain, path) === undefined) return [];
    // one of a list is not left out with the last word of it: the others would move up
    while (
      at.length > PIECE + 1 &&
      typeof at.at(-2) !== 'number' &&
      Object.keys(lookUp(plain, at.slice(0, -1)) ?? {}).length === 1
    )
      at = at.slice(0, -1);
    return [{ op: 'remove', path: at }];
  }
  let whole = value;
  while (at.length > PIECE + 1 && lookUp(plain, at.slice(0, -1)) === undefined) {
    whole = { [at.at(-1)!]: whole };
    at = at.slice(0, -1);
  }
  return [{ op: 'set', path: at, value: whole }];
}

const put = (path: Path, value: PlainValue | undefined): readonly Edit[] =>
  putIn(useBench.getState().plain ?? null, path, value);
const putText = (text: string, path: Path): readonly Edit[] => put(path, text === '' ? undefined : text);
/** What is no number goes into the plan as it was typed, where it is refused in its own words. */
export const putNumber = (text: string, path: Path): readonly Edit[] => {
  const value = Number(text.replace(',', '.'));
  return put(path, text === '' ? undefined : Number.isFinite(value) ? value : text);
};
/** A comma within a number has no space after it. */
const putList = (text: string, path: Path): readonly Edit[] =>
  put(path, text === '' ? undefined : text.split(/\s*;\s*|,\s+/).filter((one) => one !== ''));
const BETWEEN = { '×': /\s*[×x]\s*|\s+by\s+/i, and: /\s+and\s+|\s*;\s*|,\s+/i } as const;
const pairOf =
  ({ keys, between }: Pair) =>
  (text: string, path: Path): readonly Edit[] => {
    const [one = '', ...other] = text.split(BETWEEN[between]);
    // one alone is refused for want of the other
    return put(path, text === '' ? undefined : { [keys[0]]: one, [keys[1]]: other.join(` ${between} `) });
  };

/** Two that are said together, and how they are kept: the same ones each time, so that a field knows itself again. */
export const SIZE: Pair = { keys: ['width', 'height'], of: 'length', between: '×' };
export const RATED: Pair = { keys: ['pull', 'shear'], of: 'mass', between: 'and' };
const PAIRS = new Map([SIZE, RATED].map((pair) => [pair, pairOf(pair)]));

/** How what was typed becomes words of the plan. */
export function editsOf(holds: Holds): (text: string, path: Path) => readonly Edit[] {
  if (typeof holds === 'object') return PAIRS.get(holds)!;
  return holds === 'number' ? putNumber : holds === 'lengths' ? putList : putText;
}

/** The edits of a choice. */
export function choiceEdits(
  { key, unsaid, as, along, edits }: AskedChoice,
  piece: Path,
  text: string,
): readonly Edit[] {
  if (edits) return edits(text, piece);
  if (text === '') return put([...piece, ...(unsaid ?? key)], undefined);
  return [...put([...piece, ...key], as ? as(text) : text), ...(along?.(text, piece) ?? [])];
}

/** Whether a bare number in it is read as a length. */
export const lengthIn = (holds: Holds, units: Units): { readonly units?: Units } =>
  holds === 'length' || holds === 'small' ? { units } : {};
