import { formulasPage } from './docs-formulas.ts';
import { planFormatPage, planSchemaText } from './docs-plan.ts';

/** Every generated file of the repository: its path, and its text. `npm run docs` writes them, and tests say whether they are current. */
export function generatedFiles(): readonly { readonly path: string; readonly text: string }[] {
  return [
    { path: 'schema/plan.schema.json', text: planSchemaText() },
    { path: 'docs/plan-format.md', text: planFormatPage() },
    { path: 'docs/formulas.md', text: formulasPage() },
  ];
}
