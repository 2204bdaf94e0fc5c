import { describe, expect, test } from 'vitest';
import { readJob } from '../../src/input/read-job.js';
import { families } from '../../src/joints/list.js';
import { formats } from '../../src/outputs/ask.js';
import { betterBushings } from '../../src/outputs/better-bushings.js';
import { plan, prove, renderAll } from '../../src/outputs/plan.js';
import { answering, workOn } from '../../src/page/work.js';

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

describe('the plan of the page is that of make', () => {
  const text = families.find(({ kind }) => kind === 'box')?.starter ?? '';
  const { result } = readJob({ name: 'box.yaml', text }, families, () => undefined);
  if (!result.ok) throw new Error('the starter of a box joint is read');
  const job = result.value;
  const joint = job.joints[0]?.name ?? '';
  const texts = { name: 'box.yaml', text, others: {} };

  test('with the same diagnostics', async () => {
    const { diagnostics, joints } = await prove(await plan(job, { joint }));
    const better = joints.flatMap((one) => betterBushings(job, one));
    expect((await workOn(texts, joint)).diagnostics).toEqual([...diagnostics, ...better]);
  });

  test('with the same bytes, whatever was asked before', async () => {
    const asked = { id: 1, texts, joint };
    const whole = await prove(await plan(job, { joint, as: formats }));
    const made = { files: await renderAll(whole), diagnostics: whole.fileDiagnostics };
    const answer = answering();
    expect(await answer({ ...asked, ask: 'files' })).toEqual({ id: 1, made });
    await answer({ ...asked, ask: 'worked' });
    expect(await answer({ ...asked, ask: 'files' })).toEqual({ id: 1, made });
  });

  test('a joint that is not there has no files', async () => {
    const made = { files: [], diagnostics: [] };
    expect(await answering()({ id: 2, texts, joint: 'another', ask: 'files' })).toEqual({ id: 2, made });
  });
});
