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
