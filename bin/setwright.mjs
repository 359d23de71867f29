#!/usr/bin/env node
/** The command line. Sets itself up when it is run from a fresh clone, so that it works whichever way it is called. */
import { install } from '../tools/setup.mjs';

install();
const { build } = await import('../tools/build.mjs');
await build();
await import('../dist/cli/main.js');
