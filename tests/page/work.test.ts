import { expect, test } from 'vitest';
import { families } from '../../src/joints/list.js';
import { workOn } from '../../src/page/work.js';

test.each(['together', 'apart'])(
  'the page cuts a half-blind joint made %s on paper, as make does',
  async (method) => {
    const starter = families.find(({ kind }) => kind === 'half-blind-dovetail')?.starter ?? '';
    const text = starter.replace('method: together', `method: ${method}`);
    const { cut, diagnostics } = await workOn({ name: 'drawer.yaml', text, others: {} }, 'front');
    expect(cut?.sections).toHaveLength(9);
    expect(cut?.worstOverlap).toBeLessThan(0.005);
    expect(diagnostics.map(({ code }) => code)).toContain('joint-closes');
    for (const { first, second } of cut?.sections ?? []) {
      expect(first.length).toBeGreaterThan(0);
      expect(second.length).toBeGreaterThan(0);
    }
  },
);
