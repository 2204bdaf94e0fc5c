import type { Shop } from '../input/types.js';
import type { Cut } from '../joints/family.js';
import { bitExtension } from '../joints/tools.js';
import type { MadeJoint } from './input.js';

/** One setting of the router and every cut that is made with it. */
export interface ToolSetting {
  readonly bit: string;
  readonly bushing: string;
  /** mm */
  readonly extension: number;
  readonly cuts: readonly { readonly joint: string; readonly board: string }[];
}

/** What it costs to go from one setting to the next: tools are changed at the bench, a depth is turned in. */
const COST = { bit: 4, bushing: 3, depth: 1 } as const;

/** Extensions that differ by less are one setting, mm. */
const SAME_EXTENSION = 1e-3;

/**
 * Every cut of a job in an order in which bit and bushing change least: settings alike are put together, then
 * ordered exactly (Held and Karp, 1962, as an open path) up to `EXACT` settings and beyond that from the
 * nearest to the nearest, bettered by turning stretches about (2-opt; Croes, 1958) until none helps.
 */
export function toolOrder(joints: readonly MadeJoint[], shop: Shop): readonly ToolSetting[] {
  return inOrder(settingsOf(joints, shop));
}

/** Settings in a good order; exported so that it can be judged on settings of a test's own. */
export function inOrder(settings: readonly ToolSetting[]): readonly ToolSetting[] {
  const costs = settings.map((a) => settings.map((b) => changeCost(a, b)));
  const order = settings.length <= EXACT ? exactOrder(costs) : betteredOrder(nearestOrder(costs), costs);
  return order.flatMap((i) => settings[i] ?? []);
}

export const EXACT = 12;

export function changeCost(a: ToolSetting, b: ToolSetting): number {
  return (
    (a.bit === b.bit ? 0 : COST.bit) +
    (a.bushing === b.bushing ? 0 : COST.bushing) +
    (Math.abs(a.extension - b.extension) < SAME_EXTENSION ? 0 : COST.depth)
  );
}

export function totalCost(settings: readonly ToolSetting[]): number {
  return settings.reduce((sum, one, i) => {
    const before = settings[i - 1];
    return before ? sum + changeCost(before, one) : sum;
  }, 0);
}

function settingsOf(joints: readonly MadeJoint[], shop: Shop): readonly ToolSetting[] {
  const found: { setting: ToolSetting; cuts: { joint: string; board: string }[] }[] = [];
  for (const { joint, solved } of joints) {
    for (const cut of solved.cuts) {
      const setting = settingOf(cut, shop);
      const place = { joint: joint.name, board: cut.board };
      const same = found.find((one) => changeCost(one.setting, setting) === 0);
      if (same) same.cuts.push(place);
      else found.push({ setting, cuts: [place] });
    }
  }
  return found.map(({ setting, cuts }) => ({ ...setting, cuts }));
}

function settingOf(cut: Cut, shop: Shop): ToolSetting {
  return {
    bit: cut.bit.name,
    bushing: cut.bushing.name,
    extension: bitExtension(shop, cut.depth),
    cuts: [],
  };
}

type Costs = readonly (readonly number[])[];

const costBetween = (costs: Costs, from: number, to: number): number => costs[from]?.[to] ?? 0;

/** The cheapest open path through all, by what is visited and where one stands. */
function exactOrder(costs: Costs): readonly number[] {
  const count = costs.length;
  const all = (1 << count) - 1;
  const best = new Map<number, { readonly cost: number; readonly before: number }>();
  const key = (visited: number, at: number) => visited * count + at;
  for (let at = 0; at < count; at += 1) best.set(key(1 << at, at), { cost: 0, before: -1 });
  for (let visited = 1; visited <= all; visited += 1) {
    for (let at = 0; at < count; at += 1) {
      const here = best.get(key(visited, at));
      if (!here) continue;
      for (let next = 0; next < count; next += 1) {
        if (visited & (1 << next)) continue;
        const there = key(visited | (1 << next), next);
        const cost = here.cost + costBetween(costs, at, next);
        if (cost < (best.get(there)?.cost ?? Number.POSITIVE_INFINITY)) best.set(there, { cost, before: at });
      }
    }
  }
  return walkedBack(all, count, (visited, at) => best.get(key(visited, at)));
}

function walkedBack(
  all: number,
  count: number,
  find: (visited: number, at: number) => { readonly cost: number; readonly before: number } | undefined,
): readonly number[] {
  const ends = Array.from({ length: count }, (_, at) => at);
  let at = ends.reduce(
    (low, one) => ((find(all, one)?.cost ?? 0) < (find(all, low)?.cost ?? 0) ? one : low),
    0,
  );
  const order: number[] = [];
  for (let visited = all; visited > 0; ) {
    order.unshift(at);
    const before = find(visited, at)?.before ?? -1;
    visited &= ~(1 << at);
    at = before;
  }
  return order;
}

function nearestOrder(costs: Costs): readonly number[] {
  const left = new Set(costs.keys());
  const order: number[] = [];
  let at = 0;
  while (left.size > 0) {
    if (order.length > 0) {
      at = [...left].reduce((low, one) =>
        costBetween(costs, at, one) < costBetween(costs, at, low) ? one : low,
      );
    }
    order.push(at);
    left.delete(at);
  }
  return order;
}

/** Stretches are turned about as long as that makes the path cheaper. */
function betteredOrder(order: readonly number[], costs: Costs): readonly number[] {
  const costOf = (path: readonly number[]) =>
    path.reduce((sum, one, i) => (i === 0 ? 0 : sum + costBetween(costs, path[i - 1] ?? one, one)), 0);
  let now = order;
  for (let better = true; better; ) {
    better = false;
    for (let from = 0; from < now.length - 1 && !better; from += 1) {
      for (let to = from + 1; to < now.length && !better; to += 1) {
        const turned = [...now.slice(0, from), ...now.slice(from, to + 1).reverse(), ...now.slice(to + 1)];
        if (costOf(turned) < costOf(now)) {
          now = turned;
          better = true;
        }
      }
    }
  }
  return now;
}
