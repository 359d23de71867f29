import type { Issue } from '../core/issue/index.ts';
import { type SchemaNode, withMeanings } from '../core/plan/index.ts';
import { insist } from './insist.ts';
import { create } from './store.ts';

const useSchema = create(() => ({ schema: undefined as SchemaNode | undefined }));
let asked = false;

/** What is wrong, with what a key means where that was expected of it: the words come when they are first wanted, the pages read without. */
export function useToldWhole(issues: readonly Issue[], plain: unknown): readonly Issue[] {
  const { schema } = useSchema();
  if (issues.length > 0 && !asked) {
    asked = true;
    void insist(
      () => import('../../schema/plan.schema.json'),
      () => {},
    ).then(({ default: come }) => useSchema.setState({ schema: come as SchemaNode }));
  }
  return schema ? withMeanings(issues, plain, schema) : issues;
}
