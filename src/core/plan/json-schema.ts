import { z } from 'zod';
import { PLAN_VERSION, planSchema } from './schema/plan.ts';
import type { Readers } from './schema/values.ts';

/** A node of a JSON Schema, as far as this program reads its own. */
export interface SchemaNode {
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, SchemaNode>>;
  readonly title?: string;
  readonly description?: string;
  readonly type?: string | readonly string[];
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly default?: unknown;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | SchemaNode;
  readonly propertyNames?: SchemaNode;
  readonly items?: SchemaNode;
  readonly anyOf?: readonly SchemaNode[];
  readonly oneOf?: readonly SchemaNode[];
  readonly allOf?: readonly SchemaNode[];
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly pattern?: string;
  readonly format?: string;
  readonly minItems?: number;
  readonly maxItems?: number;
}

/** What a reader would say is of no concern here: only the shape as it is written is described. */
const MUTE: Readers = {
  length: () => ({ ok: false, issues: [] }),
  mass: () => ({ ok: false, issues: [] }),
  money: () => ({ ok: false, issues: [] }),
};

/** The plan file as it is written, for editors: JSON Schema, draft 2020-12. Defaults and descriptions are the schema's own. */
export function jsonSchema(): SchemaNode {
  made ??= make();
  return made;
}
/** It never changes, and takes a while. */
let made: SchemaNode | undefined;

function make(): SchemaNode {
  const schema = z.toJSONSchema(planSchema(MUTE), { io: 'input', target: 'draft-2020-12' }) as SchemaNode;
  const { $schema, ...rest } = schema as SchemaNode & { $schema?: string };
  return {
    ...(($schema === undefined ? {} : { $schema }) as SchemaNode),
    title: `Setwright plan, version ${PLAN_VERSION}`,
    description: 'A room, what can be bought, and the designs that may be built in it.',
    ...rest,
  };
}

/** The nodes of the schema that a value at this path may be held against: references and alternatives resolved. */
export function nodesAt(
  root: SchemaNode,
  document: unknown,
  path: readonly (string | number)[],
): readonly SchemaNode[] {
  let nodes = settle(root, [root], document);
  let value = document;
  for (const step of path) {
    value =
      typeof value === 'object' && value !== null && Object.hasOwn(value, step)
        ? (value as Record<string | number, unknown>)[step]
        : undefined;
    const inner: SchemaNode[] = [];
    for (const node of nodes) {
      if (typeof step === 'number') {
        if (node.items) inner.push(node.items);
      } else if (node.properties && Object.hasOwn(node.properties, step)) inner.push(node.properties[step]!);
      else if (typeof node.additionalProperties === 'object') inner.push(node.additionalProperties);
    }
    nodes = settle(root, inner, value);
  }
  return nodes;
}

function settle(root: SchemaNode, nodes: readonly SchemaNode[], value: unknown): readonly SchemaNode[] {
  const flat: SchemaNode[] = [];
  const open = [...nodes];
  const seen = new Set<SchemaNode>();
  for (let node = open.shift(); node; node = open.shift()) {
    if (seen.has(node)) continue;
    seen.add(node);
    if (node.$ref !== undefined) {
      const target = node.$ref === '#' ? root : root.$defs?.[node.$ref.replace('#/$defs/', '')];
      if (target) open.unshift(target);
    }
    open.unshift(...(node.anyOf ?? []), ...(node.oneOf ?? []), ...(node.allOf ?? []));
    flat.push(node);
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return flat;
  // of several kinds of map the one that shares most keys with what was written is meant
  const maps = flat.filter((node) => node.properties);
  if (maps.length < 2) return flat;
  const shared = (node: SchemaNode): number =>
    Object.keys(value).filter((key) => Object.hasOwn(node.properties!, key)).length;
  const most = Math.max(...maps.map(shared));
  const meant = maps.find((node) => shared(node) === most);
  return flat.filter((node) => !node.properties || node === meant);
}
