import { planFormatPage, planSchemaText } from './docs-plan.ts';

interface FormulasModule {
  readonly formulasPage?: () => string;
}
const formulas = Object.values(import.meta.glob<FormulasModule>('./docs-formulas.ts', { eager: true }))[0];

/** Every generated file of the repository: its path, and its text. `npm run docs` writes them, and tests say whether they are current. */
export function generatedFiles(): readonly { readonly path: string; readonly text: string }[] {
  return [
    { path: 'schema/plan.schema.json', text: planSchemaText() },
    { path: 'docs/plan-format.md', text: planFormatPage() },
    ...(formulas?.formulasPage ? [{ path: 'docs/formulas.md', text: formulas.formulasPage() }] : []),
  ];
}
