declare module '*.dependency-cruiser.cjs' {
  import type { ICruiseOptions, IForbiddenRuleType } from 'dependency-cruiser';

  const rules: {
    forbidden: IForbiddenRuleType[];
    options: Required<Pick<ICruiseOptions, 'doNotFollow' | 'tsPreCompilationDeps'>> & {
      enhancedResolveOptions: object;
    };
  };
  export default rules;
}
