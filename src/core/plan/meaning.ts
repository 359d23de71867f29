import type { Issue } from '../issue/index.ts';
import type { Path } from './document.ts';
import type { SchemaNode } from './json-schema.ts';

/** What is told with the meaning of its key as what was expected, where nothing else was. */
const BY_MEANING = /^this is not |^'[^']*' is missing$|^nothing is written here/;

/**
 * Issues of a plan as they are told where its schemas carry no descriptions, made whole by the schema's file: what a key means is what was
 * expected of it. `plain` is what the plan says.
 */
export const withMeanings = (issues: readonly Issue[], plain: unknown, schema: SchemaNode): readonly Issue[] =>
  issues.map((issue) => {
    if (issue.expected !== undefined || !BY_MEANING.test(issue.message)) return issue;
    const expected = meaningAt(schema, issue.path, plain);
    return expected === undefined ? issue : { ...issue, expected };
  });

function meaningAt(schema: SchemaNode, path: Path, plain: unknown): string | undefined {
  const opened = (node: SchemaNode): readonly SchemaNode[] => {
    const { $ref } = node;
    const named = $ref === undefined ? undefined : schema.$defs?.[$ref.replace('#/$defs/', '')];
    return [node, ...(named ? opened(named) : []), ...(node.anyOf ?? []).flatMap(opened)];
  };
  let [forms, value] = [opened(schema), plain];
  for (const step of path) {
    forms = ofItsKind(forms, value).flatMap((form) => opened(below(form, step)));
    value =
      typeof value === 'object' && value !== null && Object.hasOwn(value, step)
        ? (value as Record<string | number, unknown>)[step]
        : undefined;
  }
  return ofItsKind(forms, value).find(({ description }) => description !== undefined)?.description;
}

function below({ items, properties, additionalProperties }: SchemaNode, step: string | number): SchemaNode {
  if (typeof step === 'number') return items ?? {};
  if (properties && Object.hasOwn(properties, step)) return properties[step]!;
  return typeof additionalProperties === 'object' ? additionalProperties : {};
}

/** A piece is known by the first key of its kind; of other values every form may be meant. */
function ofItsKind(forms: readonly SchemaNode[], value: unknown): readonly SchemaNode[] {
  if (typeof value !== 'object' || value === null) return forms;
  const first = ({ properties }: SchemaNode): string | undefined => Object.keys(properties ?? {})[0];
  const kinds = forms.filter((form) => first(form) !== undefined);
  if (kinds.length < 2) return forms;
  const own = kinds.filter((form) => Object.hasOwn(value, first(form)!));
  return own.length === 0 ? forms : own;
}
