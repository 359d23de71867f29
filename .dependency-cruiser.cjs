/** The house rules of src/: who may import whom. test/house.test.ts shows that each of them bites. */
module.exports = {
  forbidden: [
    {
      name: 'core-is-pure',
      comment: 'core knows no platform: it may import core and a few pure libraries, nothing else',
      severity: 'error',
      from: { path: '^src/core', pathNot: '\\.(test|testing)\\.ts$' },
      to: { pathNot: ['^src/core', '^node_modules/(zod|yaml|uqr)(/|$)'] },
    },
    {
      name: 'core-no-node-builtins',
      severity: 'error',
      from: { path: '^src/core', pathNot: '\\.(test|testing)\\.ts$' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'one-door-per-topic',
      comment: 'a topic folder is entered through its index.ts only',
      severity: 'error',
      from: { path: '^src/core/([^/]+)/' },
      to: { path: '^src/core/[^/]+/.', pathNot: ['^src/core/$1/', '^src/core/[^/]+/index\\.ts$', '\\.testing\\.ts$'] },
    },
    {
      name: 'core-through-doors',
      comment: 'print, cli, server and web use core through its doors too',
      severity: 'error',
      from: { path: '^src/(print|cli|server|web)/' },
      to: { path: '^src/core/[^/]+/.', pathNot: ['^src/core/[^/]+/index\\.ts$', '\\.testing\\.ts$'] },
    },
    {
      name: 'print-below-shells',
      severity: 'error',
      from: { path: '^src/print' },
      to: { path: '^src/(cli|server|web)' },
    },
    {
      name: 'web-apart-from-server',
      severity: 'error',
      from: { path: '^src/web' },
      to: { path: '^src/(cli|server)/' },
    },
    {
      name: 'server-apart-from-cli',
      severity: 'error',
      from: { path: '^src/server' },
      to: { path: '^src/(cli|web)/' },
    },
    { name: 'no-circular', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'no-tests-in-product',
      severity: 'error',
      from: { pathNot: '\\.(test|testing)\\.ts$' },
      to: { path: '\\.(test|testing)\\.ts$' },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: {
      extensions: ['.ts', '.tsx', '.js', '.mjs'],
      conditionNames: ['import', 'node', 'types', 'default'],
    },
  },
};
