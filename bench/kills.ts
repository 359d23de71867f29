import { fileURLToPath } from 'node:url';
import { killTrial } from '../src/server/kills.testing.ts';

/** `npm run bench -- kills [COUNT] [PROGRAM]`: the server is killed in the middle of saves; what was acknowledged must be there. */
const [count = '200', program = fileURLToPath(`${process.env.SETWRIGHT_ROOT}/dist/cli/main.js`)] =
  process.argv.slice(2);
let state = 12345;
/** Park and Miller's minimal standard generator: the same kills at the same moments, as far as a machine allows. */
const random = (): number => {
  state = (state * 48271) % 2147483647;
  return state / 2147483647;
};
const started = Date.now();
const result = await killTrial([program], Number(count), random, (done) => {
  if (done % 20 === 0) console.log(`${done} kills, ${Math.round((Date.now() - started) / 1000)} s`);
});
console.log(JSON.stringify(result));
process.exit(result.lost + result.torn === 0 ? 0 : 1);
