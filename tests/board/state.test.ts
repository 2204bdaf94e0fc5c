import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Action, begin, type State, update } from '../../src/board/state.js';
import { families } from '../../src/joints/list.js';

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
      expect(run(state, ...back, ...forth).text).toBe(state.future.at(-1) ?? state.text);
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
