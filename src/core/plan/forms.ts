import type { z } from 'zod';
import type { Path } from './document.ts';
import { PIECE_KINDS } from './schema/plan.ts';

/** A form that a value may take, as far as it is read here: the schema's own, so that the pages know it too. */
export interface Form {
  readonly description?: string | undefined;
  readonly _zod: { readonly def: unknown };
}
interface Def {
  readonly shape?: Readonly<Record<string, Form>>;
  readonly element?: Form;
  readonly valueType?: Form;
  readonly options?: readonly Form[];
  readonly innerType?: Form;
  readonly in?: Form;
  readonly getter?: () => Form;
}
const defOf = (form: Form) => form._zod.def as Def;

/** The keys of a form that has keys of its own. */
export const keysOf = (form: Form): readonly string[] => Object.keys(defOf(form).shape ?? {});

/** A form and what it stands for: what is wrapped in it, and its alternatives in their order. */
function unwrapped(form: Form): readonly Form[] {
  const { options, innerType, in: first, getter } = defOf(form);
  return [form, ...(options ?? [innerType ?? first ?? getter?.()]).flatMap((one) => (one ? unwrapped(one) : []))];
}

/** The forms below a key or a place in a list. */
const below = (forms: readonly Form[], step: string | number): readonly Form[] =>
  forms.flatMap((form) => {
    const { shape, element, valueType } = defOf(form);
    const inner = typeof step === 'number' ? element : shape && Object.hasOwn(shape, step) ? shape[step] : valueType;
    return inner ? unwrapped(inner) : [];
  });

/** Where a piece stands in a plan. */
export const isPiece = (path: Path): boolean => path.length === 4 && path[0] === 'options' && path[2] === 'pieces';

/** The kind that a piece says it is: of several, the one it names first. Less than 0 where it names none. */
export function kindSaid(piece: object): number {
  const kinds: readonly string[] = PIECE_KINDS;
  return kinds.indexOf(Object.keys(piece).find((key) => kinds.includes(key)) ?? '');
}

/** Of several groups of keys the one that is meant: a piece says its kind, else what shares most keys with what is written. */
function meant(forms: readonly Form[], value: unknown, path: Path): readonly Form[] {
  const groups = forms.filter((form) => keysOf(form).length > 0);
  if (typeof value !== 'object' || value === null || Array.isArray(value) || groups.length < 2) return forms;
  const shared = (form: Form): number => keysOf(form).filter((key) => Object.hasOwn(value, key)).length;
  const most = Math.max(...groups.map(shared));
  const one = (isPiece(path) && groups[kindSaid(value)]) || groups.find((form) => shared(form) === most);
  return forms.filter((form) => form === one || !groups.includes(form));
}

/** The forms that a value at this path of the document may take. */
export function formsAt(schema: z.ZodType, plain: unknown, path: Path): readonly Form[] {
  let [forms, value] = [unwrapped(schema), plain];
  path.forEach((step, i) => {
    value =
      typeof value === 'object' && value !== null && Object.hasOwn(value, step)
        ? (value as Record<string | number, unknown>)[step]
        : undefined;
    forms = meant(below(forms, step), value, path.slice(0, i + 1));
  });
  return forms;
}

/** Every kind of piece in its order, with its keys. */
export const piecesOf = (schema: z.ZodType): readonly (readonly string[])[] =>
  below(below(below(below(unwrapped(schema), 'options'), 0), 'pieces'), 0)
    .map(keysOf)
    .filter((keys) => keys.length > 0);
