import fc from 'fast-check';
import { type Machine, madeOn, nominal, routerTable, someMachine } from './machines.js';
import { length, oneOf } from './random-jobs.js';

/** Random jobs pushed to where something gives way: thick stock, odd bushings, little plate, holes, reliefs, any machine. */

type Fields = Record<string, unknown>;

interface Push {
  readonly stock: number;
  readonly outside: number;
  readonly bore: number | undefined;
  readonly height: number;
  readonly template: Fields;
  readonly slack: number | undefined;
  readonly machine: Machine;
}

const rarely = <T>(values: fc.Arbitrary<T>) => fc.option(values, { nil: undefined, freq: 1 });

const template: fc.Arbitrary<Fields> = fc
  .record({
    nose: rarely(length(0.5, 30)),
    margin: rarely(length(0, 60)),
    spine: rarely(length(15, 90)),
    hole: rarely(length(0, 12)),
    plate: rarely(fc.constant('one')),
    slots: rarely(fc.constant('every-second')),
  })
  .map((all) => Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined)));

const push: fc.Arbitrary<Push> = fc.record({
  stock: oneOf(1, 1, 1, 0.4, 1.6, 2.5),
  outside: oneOf(1, 1, 1, 0.6, 0.8, 1.3, 2),
  bore: oneOf(undefined, undefined, 0.7, 0.9),
  height: oneOf(1, 1, 0.7, 2, 3),
  template,
  slack: rarely(length(0, 1)),
  machine: fc.oneof(
    fc.constant(nominal),
    someMachine,
    fc.tuple(length(2, 16), oneOf('corner' as const, 'edge' as const)).map((at) => routerTable(...at)),
  ),
});

/** Jobs of these kinds, pushed. */
export function extreme(jobs: fc.Arbitrary<string>): fc.Arbitrary<string> {
  return fc.tuple(jobs, push).map(([text, by]) => pushed(text, by));
}

function pushed(
  text: string,
  { stock, outside, bore, height, template: asked, slack, machine }: Push,
): string {
  const job = JSON.parse(text) as {
    shop: Record<string, Record<string, Fields>>;
    joints: Record<string, Fields>;
  };
  const scaled = (all: Record<string, Fields> = {}, key: string, factor: number) =>
    Object.fromEntries(
      Object.entries(all).map(([name, one]) => [name, { ...one, [key]: Number(one[key]) * factor }]),
    );
  const bushings = Object.fromEntries(
    Object.entries(scaled(job.shop.bushings, 'outside', outside)).map(([name, one]) => {
      const wide = (one as Fields).outside as number;
      return [name, bore === undefined ? one : { ...one, bore: wide * bore, barrel: 4 }];
    }),
  );
  const joints = Object.fromEntries(
    Object.entries(job.joints).map(([name, joint]) => [
      name,
      {
        ...joint,
        boards: scaled(joint.boards as Record<string, Fields>, 'thickness', stock),
        template: { ...(joint.template as Fields | undefined), ...asked },
        ...(slack !== undefined && { fit: { slack } }),
      },
    ]),
  );
  const bits = scaled(job.shop.bits, 'height', height * stock);
  return madeOn(machine, JSON.stringify({ ...job, shop: { ...job.shop, bits, bushings }, joints }));
}
