import { REAL_SRC } from '../laws/room';
import { live } from './life';
import { livesRoomIn } from './room';

/* `npm run -s lives -- --n N --seed S`: lives N lives from seed S on, and stops at the first that goes wrong. */

const asked = (name: string, otherwise: number): number => {
  const at = process.argv.indexOf(name);
  const given = at < 0 ? otherwise : Number(process.argv[at + 1]);
  if (!Number.isSafeInteger(given) || given < 0) throw new Error(`${name} must be a whole number from 0`);
  return given;
};

const count = asked('--n', 1000);
const from = asked('--seed', 1);
const room = await livesRoomIn(REAL_SRC);
const begun = performance.now();
let passed = 0;
let failed = 0;
for (let seed = from; seed < from + count && failed === 0; seed += 1) {
  const fault = await live(room, seed);
  if (fault === undefined) passed += 1;
  else {
    failed += 1;
    console.log(`the life of seed ${seed} went wrong\n${fault}`);
  }
}
const seconds = (performance.now() - begun) / 1000;
console.log(`${((passed + failed) / seconds).toFixed(1)} lives a second`);
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
