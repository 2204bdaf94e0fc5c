import type { Joint, Shop } from '../../src/input/types.js';
import type { JointFamily } from '../../src/joints/family.js';
import { kitOf } from '../../src/joints/kit/kit.js';
import { families } from '../../src/joints/list.js';
import { bigShop } from '../kit/shops.js';
import { readText } from '../support/jobs.js';
import { medianTime, row } from './measure.js';

/** Every pair of 200 bits and 40 bushings on the starter job of each kind of joint. */
export function kits(): void {
  console.log('Kit: 200 bits by 40 bushings');
  for (const family of families) {
    const { joints, shop } = readText(family.starter);
    const [joint] = joints;
    const kinds = joint && family.bitSlots?.(joint).map(({ kind }) => kind);
    if (!joint || !kinds || kinds.length === 0) continue;
    measure(family, joint, bigShop(shop, 200, 40, [...new Set(kinds)]));
  }
  console.log();
}

function measure(family: JointFamily, joint: Joint, shop: Shop): void {
  const { solved, choices } = kitOf(family, joint, shop);
  const time = medianTime(5, () => void kitOf(family, joint, shop), 1);
  row(family.kind, time, 'ms', `${solved} layouts solved, ${choices.length} sets do; aim: under 1000`);
}
