import fc from 'fast-check';

/**
 * Laws are tested on the same random plans every time, so that a commit that changes nothing breaks nothing. To look further, name a seed:
 * `SETWRIGHT_SEED=42 npx vitest run src/core/casework`. What it finds becomes a named row beside the law.
 */
fc.configureGlobal({ seed: Number(process.env.SETWRIGHT_SEED ?? 20261126) });
