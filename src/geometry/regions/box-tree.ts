import type { Extents } from '../types.js';

/**
 * An index of boxes: finds those that meet a query box without looking at all. Boxes are grouped eight by
 * eight in the order given, so neighbours along an outline share a branch; that needs no cell size and does
 * not mind which way a long comb lies.
 */
export interface BoxTree {
  /** Calls `visit` with the number of every box that meets the query, in ascending order, until it answers true. */
  search(minX: number, minY: number, maxX: number, maxY: number, visit: (index: number) => boolean): boolean;
}

const branching = 8;

export function boxTree(boxes: readonly Extents[]): BoxTree {
  const levels = [flatBoxes(boxes)];
  for (let top = levels[0]; top !== undefined && top.length > 4 * branching; top = levels.at(-1)) {
    levels.push(parents(top));
  }
  return {
    search: (minX, minY, maxX, maxY, visit) => {
      const root = levels.length - 1;
      const count = (levels[root]?.length ?? 0) / 4;
      return searchLevel(levels, root, 0, count, minX, minY, maxX, maxY, visit);
    },
  };
}

function flatBoxes(boxes: readonly Extents[]): Float64Array {
  const flat = new Float64Array(boxes.length * 4);
  boxes.forEach((box, i) => {
    flat[4 * i] = box.minX;
    flat[4 * i + 1] = box.minY;
    flat[4 * i + 2] = box.maxX;
    flat[4 * i + 3] = box.maxY;
  });
  return flat;
}

function parents(children: Float64Array): Float64Array {
  const count = children.length / 4;
  const flat = new Float64Array(Math.ceil(count / branching) * 4);
  for (let parent = 0; parent * 4 < flat.length; parent++) {
    let minX = Infinity;
    let minY = Infinity;
    let maxX = -Infinity;
    let maxY = -Infinity;
    for (let i = parent * branching; i < Math.min(count, (parent + 1) * branching); i++) {
      minX = Math.min(minX, children[4 * i] ?? Infinity);
      minY = Math.min(minY, children[4 * i + 1] ?? Infinity);
      maxX = Math.max(maxX, children[4 * i + 2] ?? -Infinity);
      maxY = Math.max(maxY, children[4 * i + 3] ?? -Infinity);
    }
    flat.set([minX, minY, maxX, maxY], 4 * parent);
  }
  return flat;
}

function searchLevel(
  levels: readonly Float64Array[],
  level: number,
  first: number,
  end: number,
  minX: number,
  minY: number,
  maxX: number,
  maxY: number,
  visit: (index: number) => boolean,
): boolean {
  const boxes = levels[level];
  if (boxes === undefined) return false;
  for (let i = first; i < end; i++) {
    if ((boxes[4 * i] ?? Infinity) > maxX || (boxes[4 * i + 2] ?? -Infinity) < minX) continue;
    if ((boxes[4 * i + 1] ?? Infinity) > maxY || (boxes[4 * i + 3] ?? -Infinity) < minY) continue;
    if (level === 0) {
      if (visit(i)) return true;
      continue;
    }
    const below = Math.min((levels[level - 1]?.length ?? 0) / 4, (i + 1) * branching);
    if (searchLevel(levels, level - 1, i * branching, below, minX, minY, maxX, maxY, visit)) return true;
  }
  return false;
}
