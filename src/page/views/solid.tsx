import { useEffect, useRef, useState } from 'preact/hooks';
import { loadSolidView } from '../packed.js';
import type { SolidHandle } from '../solid/solid-view.js';
import { workedOn } from '../state.js';
import { useBench } from '../store.js';

/** Both boards to be turned in the hand and drawn apart. What draws them is unpacked when it is asked for. */
export function SolidView() {
  const { state, solids } = useBench();
  const room = useRef<HTMLDivElement>(null);
  const [handle, setHandle] = useState<SolidHandle | undefined>();
  const [problem, setProblem] = useState('');
  const [busy, setBusy] = useState(false);
  const [apart, setApart] = useState(30);
  const worked = workedOn(state);
  const { text } = state;
  const ready = worked?.text === text && (worked.outcome?.made?.solved.cuts.length ?? 0) > 0;

  useEffect(() => {
    if (!handle || !ready) return;
    void solids().then((boards) => handle.show(boards));
  }, [handle, worked]);
  useEffect(() => handle?.pull(apart / 100), [handle, apart]);
  useEffect(() => () => handle?.end(), [handle]);

  const open = async () => {
    if (!room.current) return;
    setBusy(true);
    try {
      const { openSolidView } = await loadSolidView();
      setHandle(openSolidView(room.current));
    } catch {
      setProblem('This browser cannot draw solids here (it gives no WebGL); everything else works without.');
    }
    setBusy(false);
  };
  return (
    <section class="solid" aria-labelledby="solid-title">
      <header>
        <h2 id="solid-title">In the hand</h2>
        {handle && (
          <label class="level">
            drawn apart
            <input
              type="range"
              min="0"
              max="100"
              value={apart}
              onInput={(event) => setApart(Number(event.currentTarget.value))}
            />
          </label>
        )}
      </header>
      {!handle && problem === '' && (
        <p>
          <button type="button" disabled={busy || !ready} onClick={() => void open()}>
            {busy ? 'unpacking …' : 'turn both boards in the hand'}
          </button>
        </p>
      )}
      {problem !== '' && <p class="empty">{problem}</p>}
      <div
        ref={room}
        class={handle ? 'room' : 'room closed'}
        role="application"
        aria-label="Both boards as the template cuts them; drag or use the arrow keys to turn them, plus and minus come nearer and go back"
        tabIndex={handle ? 0 : -1}
        onKeyDown={(event) => {
          if (handle?.key(event.key)) event.preventDefault();
        }}
      />
    </section>
  );
}
