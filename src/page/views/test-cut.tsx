import { useState } from 'preact/hooks';
import { extents, rectangle } from '../../verify/cut/polygons.js';
import { pathOfPolygons } from '../screen-path.js';
import { madeOf, type State, workedOn } from '../state.js';
import { awaited, isPressing, type Notes, useBench } from '../store.js';
import { SMALLEST } from './joint.js';
import { NoteList } from './notes.js';

/** The joint cut on paper from its written templates: gaps and overlaps at any level of its depth. */
export function TestCutView({ said }: { readonly said: readonly Notes[] }) {
  const { state } = useBench();
  const [chosen, setChosen] = useState<number | undefined>();
  const worked = workedOn(state);
  const { text, model } = state;
  const cut = worked?.cut;
  const fmt = model.fmt;
  const index = Math.min(chosen ?? (cut?.sections.length ?? 1) - 1, (cut?.sections.length ?? 1) - 1);
  const level = cut?.sections[index];
  return (
    <section class={worked?.text === text ? 'test-cut' : 'test-cut stale'} aria-labelledby="test-cut-title">
      <header>
        <h2 id="test-cut-title">The test cut</h2>
        <p class="measure" role="status">
          {cut
            ? `worst gap ${fmt.length(cut.worstGap)}, worst overlap ${fmt.length(cut.worstOverlap)}`
            : 'cut on paper from the written templates'}
        </p>
      </header>
      <NoteList said={said.filter(isPressing)} />
      {!cut && <p class="empty">{noCutWords(state)}</p>}
      {cut && level && (
        <>
          <Section level={level} />
          <label class="level">
            level, from the end to the baseline
            <input
              type="range"
              min="0"
              max={cut.sections.length - 1}
              value={index}
              aria-valuetext={`${fmt.length(level.z)} from the end`}
              onInput={(event) => setChosen(Number(event.currentTarget.value))}
            />
            <output>{fmt.length(level.z)}</output>
          </label>
          <p class="levels">
            at this level: <span class="key gap">gap {fmt.length(level.gap.width)}</span>{' '}
            <span class="key overlap">overlap {fmt.length(level.overlap.width)}</span>
          </p>
        </>
      )}
    </section>
  );
}

function noCutWords(state: State): string {
  const made = madeOf(state);
  if (made !== 'made') return awaited[made];
  const { made: joint } = workedOn(state)?.outcome ?? {};
  if (joint?.solved.cuts.length === 0)
    return 'This joint is cut by hand: there are no templates to cut it with.';
  if (joint && !joint.solved.assembly) return 'The test cut does not know this kind of joint yet.';
  return 'The test cut could not be made; the reasons are above.';
}

type Level = NonNullable<
  NonNullable<ReturnType<typeof useBench>['state']['worked']>['cut']
>['sections'][number];

function Section({ level }: { readonly level: Level }) {
  const box = extents([...level.first, ...level.second]);
  if (!(box.minX < box.maxX)) return null;
  const height = box.maxY - box.minY;
  return (
    <div class="bench-scroll">
      <svg
        class="section"
        style={{ minWidth: `${(box.maxX - box.minX) * SMALLEST}px` }}
        viewBox={`${box.minX} ${-box.maxY} ${box.maxX - box.minX} ${height}`}
        role="img"
        aria-label={`the closed joint in section: gap ${level.gap.width.toFixed(3)} mm, overlap ${level.overlap.width.toFixed(3)} mm`}
      >
        <path class="frame" d={pathOfPolygons([rectangle(box)])} />
        <path class="first" fill-rule="nonzero" d={pathOfPolygons(level.first)} />
        <path class="second" fill-rule="nonzero" d={pathOfPolygons(level.second)} />
        <path class="gap" d={pathOfPolygons(level.gaps)} />
        <path class="overlap" d={pathOfPolygons(level.overlaps)} />
      </svg>
    </div>
  );
}
