import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { families } from '../../src/joints/list.js';
import { refusedAtOnce } from '../../src/page/model.js';
import { standingOf } from '../../src/page/saving.js';
import { type Action, begin, type State, update, workedOn, wouldLose } from '../../src/page/state.js';
import { judgeTexts } from '../../src/page/work.js';
import { root } from '../support/jobs.js';

const text = families[0]?.starter ?? '';
const first = begin({ name: 'job.yaml', text, others: {} });
const width = ['joints', 'corner', 'width'];
const typed = (to: string, run?: string): Action => ({
  do: 'edit',
  edits: [{ set: width, to }],
  ...(run ? { run } : {}),
});
const run = (state: State, ...actions: readonly Action[]): State => actions.reduce(update, state);

test('one field typed in letter by letter is undone at once, another field by itself', () => {
  const state = run(
    first,
    typed('4', 'width'),
    typed('4-1', 'width'),
    typed('4-1/2', 'width'),
    { do: 'settle' },
    typed('5', 'width'),
  );
  expect(run(state, { do: 'undo' }).text).toContain('width: 4-1/2');
  expect(run(state, { do: 'undo' }, { do: 'undo' }).text).toBe(text);
});

test('any row of steps back and forth ends where it should, and typing anew forgets what was undone', () => {
  const step = fc.constantFrom<Action>(
    typed('4'),
    typed('5'),
    typed('6', 'run'),
    { do: 'settle' },
    { do: 'undo' },
    { do: 'redo' },
  );
  fc.assert(
    fc.property(fc.array(step, { maxLength: 12 }), (steps) => {
      const state = run(first, ...steps);
      const back = state.past.map((): Action => ({ do: 'undo' }));
      const forth = [...state.past, ...state.future].map((): Action => ({ do: 'redo' }));
      expect(run(state, ...back).text).toBe(text);
      expect(run(state, ...back, ...forth).text).toBe(state.future.at(-1)?.text ?? state.text);
      expect(run(state, typed('7')).future).toEqual(state.text.includes('width: 7') ? state.future : []);
    }),
    { numRuns: 40 },
  );
});

test('while a job is refused the last joint that could be laid out stays drawn', () => {
  const refused = run(first, typed('0.5'));
  expect(refused.model.solved).toBeUndefined();
  expect(refused.drawn?.solved?.width).toBeCloseTo(3.5 * 25.4, 9);
  const unread = run(first, { do: 'write', text: 'joints: [' });
  expect(unread.model.job).toBeUndefined();
  expect(unread.drawn?.solved?.width).toBeCloseTo(3.5 * 25.4, 9);
  expect(run(unread, { do: 'undo' }).model.solved?.width).toBeCloseTo(3.5 * 25.4, 9);
});

test('a shop file beside the job is asked for by name and taken when it comes', () => {
  const job = text.replace(/shop:[\s\S]*?\njoints:/, 'shop: ./shop.yaml\njoints:');
  const shop = /bits:[\s\S]*?(?=\njoints:)/.exec(text)?.[0] ?? '';
  const state = begin({ name: 'job.yaml', text: job, others: {} });
  expect(state.model.wanted).toBe('shop.yaml');
  const given = run(state, {
    do: 'beside',
    path: 'shop.yaml',
    text: `units: in\n${shop.replace(/^ {2}/gm, '')}`,
  });
  expect(given.model.wanted).toBeUndefined();
  expect(given.model.solved?.name).toBe('corner');
});

describe('the save state', () => {
  const served = begin({ name: 'tray.yaml', text, others: {} }, true);
  const standing = (state: State) => standingOf(state.keeping, state.text);
  const saved = (state: State): State =>
    run(
      state,
      { do: 'sent', id: state.id, text: state.text },
      { do: 'answered', id: state.id, text: state.text, answer: { ok: true } },
    );
  const unheard = (state: State): State =>
    run(
      state,
      { do: 'sent', id: state.id, text: state.text },
      { do: 'answered', id: state.id, text: state.text, answer: { ok: false, why: 'no-answer' } },
    );

  test('is worked out from what the server has confirmed last', () => {
    expect(standing(served)).toBe('saved');
    const typing = run(served, typed('4'));
    expect(standing(typing)).toBe('unsaved');
    expect(standing(run(typing, { do: 'undo' }))).toBe('saved');
    expect(standing(run(typing, { do: 'sent', id: 0, text: typing.text }))).toBe('saving');
    expect(standing(saved(typing))).toBe('saved');
    expect(standing(run(saved(typing), typed('5')))).toBe('unsaved');
    expect(standing(run(saved(typing), { do: 'undo' }))).toBe('unsaved');
  });

  test('is not saved once the server is gone, whatever was said before and however the text goes back', () => {
    const gone = unheard(run(saved(run(served, typed('4'))), typed('5')));
    expect(standing(gone)).toBe('no-answer');
    // The save may have come through all the same: the file holds one text or the other.
    expect(standing(run(gone, { do: 'undo' }))).toBe('no-answer');
    expect(gone.keeping.known).toHaveLength(2);
    expect(standing(saved(gone))).toBe('saved');
    expect(saved(gone).keeping.known).toEqual([gone.text]);
  });

  test('is of the text that was sent, not of what was typed meanwhile, and of its own job', () => {
    const sentFirst = run(served, typed('4'), { do: 'sent', id: 0, text: 'x' });
    const later = run(sentFirst, typed('5'), { do: 'answered', id: 0, text: 'x', answer: { ok: true } });
    expect(standing(later)).toBe('unsaved');
    expect(later.keeping.known).toEqual(['x']);
    const other = run(
      sentFirst,
      { do: 'load', texts: { name: 'box.yaml', text: 'units: mm\n', others: {} } },
      { do: 'answered', id: 0, text: 'x', answer: { ok: true } },
    );
    expect(standing(other)).toBe('new');
    expect(other.aside[0]?.keeping.known).toEqual(['x']);
  });

  test('knows a conflict, and what each way out of it may replace', () => {
    const typing = run(served, typed('4'));
    const answer = { ok: false, why: 'changed', theirs: 'theirs' } as const;
    const conflict = run(
      typing,
      { do: 'sent', id: 0, text: typing.text },
      { do: 'answered', id: 0, text: typing.text, answer },
    );
    expect(standing(conflict)).toBe('changed-elsewhere');
    expect(conflict.keeping.known).toEqual([text]);
    expect(run(conflict, { do: 'overwrite' }).keeping.known).toEqual(['theirs']);
    const renamed = run(conflict, { do: 'rename' });
    expect(renamed.name).toBe('tray-2.yaml');
    expect(renamed.keeping.known).toEqual([]);
    expect(run(renamed, { do: 'rename' }).name).toBe('tray-3.yaml');
  });
});

describe('another job on the bench', () => {
  const box = { name: 'box.yaml', text: families[1]?.starter ?? '', others: {} };

  test('is a step: undo brings back the one before with its unsaved work, and redo the other', () => {
    const typing = run(first, typed('4'), typed('5'));
    const other = run(typing, { do: 'load', texts: box });
    expect(other.name).toBe('box.yaml');
    expect(wouldLose(other)).toBe(true);
    const back = run(other, { do: 'undo' });
    expect([back.name, back.text, back.id]).toEqual([typing.name, typing.text, typing.id]);
    expect(run(back, { do: 'undo' }, { do: 'undo' }).text).toBe(text);
    expect(run(back, { do: 'redo' }).text).toBe(box.text);
    expect(run(back, { do: 'redo' }).name).toBe('box.yaml');
  });

  test('has a file of its own, so that it never stands against the text of the first', () => {
    const served = begin({ name: 'box.yaml', text, others: {} }, true);
    const other = run(served, { do: 'load', texts: box });
    expect(other.name).toBe('box-2.yaml');
    expect(other.keeping.known).toEqual([]);
    expect(run(other, { do: 'undo' }).keeping.known).toEqual([text]);
  });
});

describe('a job of several joints', () => {
  const cabinet = readFileSync(join(root, 'samples/cabinet.yaml'), 'utf8');
  const others = { 'shop.yaml': readFileSync(join(root, 'samples/shop.yaml'), 'utf8') };
  const begun = (changed: string) => begin({ name: 'cabinet.yaml', text: changed, others });
  const bad = begun(cabinet.replace('width: 2-1/2', 'width: nine'));

  test('goes on with the others when one cannot be read, and says nothing of it on their benches', async () => {
    expect(bad.model.reading.result.ok).toBe(false);
    expect(bad.model.solved?.name).toBe('case-corner');
    expect(bad.model.diagnostics.filter(({ level }) => level === 'refused')).toEqual([]);
    expect(refusedAtOnce(bad.model)).toEqual(['seed-tray']);
    expect((await judgeTexts({ name: bad.name, text: bad.text, others })).refused).toEqual([]);
  });

  test('puts a bad joint on the bench with its own reasons, the first one too', () => {
    const there = run(bad, { do: 'choose', joint: 'seed-tray' });
    expect(there.model.joint).toBeUndefined();
    expect(there.model.diagnostics.map(({ code }) => code)).toContain('length-unclear');
    const second = begun(cabinet.replace('width: 11-1/4', 'width: x'));
    expect(second.model.chosen).toBe('case-corner');
    expect(second.model.solved).toBeUndefined();
    expect(run(second, { do: 'choose', joint: 'drawer-5' }).model.solved?.name).toBe('drawer-5');
  });

  test('refuses what is lined up with a bad joint, and judges the rest', async () => {
    const led = begun(cabinet.replace('width: 2-3/4', 'width: x'));
    const lost = run(led, { do: 'choose', joint: 'drawer-2' });
    expect(lost.model.solved).toBeUndefined();
    expect(lost.model.diagnostics.map(({ code }) => code)).toContain('align-refused');
    const { refused } = await judgeTexts({ name: led.name, text: led.text, others });
    expect(refused).toEqual(['drawer-2', 'drawer-3', 'drawer-4', 'drawer-5']);
  });

  test('keeps what was made of the joint on the bench when it is chosen again', () => {
    const good = begun(cabinet);
    const worked = { text: cabinet, joint: 'case-corner', diagnostics: [], betterBushings: [] };
    const made = run(good, { do: 'worked', worked });
    expect(run(made, { do: 'choose', joint: 'case-corner' })).toBe(made);
    const away = run(made, { do: 'choose', joint: 'seed-tray' });
    expect(workedOn(away)).toBeUndefined();
    expect(workedOn(run(away, { do: 'choose', joint: 'case-corner' }))).toBe(worked);
  });
});

test('a run that ends where it began is no step', () => {
  const there = run(first, typed('4', 'edge 1'), { do: 'write', text, run: 'edge 1' });
  expect(there.text).toBe(text);
  expect(there.past).toEqual([]);
});

test('a notice is said once: typing does not bring it back', () => {
  const undone = run(first, typed('4'), { do: 'undo' });
  expect(undone.notice?.count).toBe(1);
  expect(run(undone, typed('5'), typed('6')).notice).toBe(undone.notice);
});
