import { useRef, useState } from 'preact/hooks';
import { linesOf } from '../../drawing/drawing.js';
import { extents, isCounterClockwise, reversed } from '../../geometry/outline.js';
import type { Point, Region } from '../../geometry/types.js';
import { radiusAt } from '../../joints/tools.js';
import type { FingerTemplate } from '../../template/finger-template.js';
import { pushBushing } from '../rout.js';
import { pathOfPoints, screenPath } from '../screen-path.js';
import { madeOf, type State, workedOn } from '../state.js';
import { awaited, isPressing, type Notes, useBench } from '../store.js';
import { SMALLEST } from './joint.js';
import { NoteList } from './notes.js';

/** The plates over their boards, each with a bushing and bit to push along the opening by hand. */
export function Plates({ said }: { readonly said: readonly Notes[] }) {
  const { state } = useBench();
  const { text } = state;
  const worked = workedOn(state);
  const templates = worked?.outcome?.made?.templates ?? [];
  const stale = worked?.text !== text;
  return (
    <section class={stale ? 'plates stale' : 'plates'} aria-labelledby="plates-title" id="plates">
      <header>
        <h2 id="plates-title">The plate over it</h2>
        <p class="measure">push the bushing along an opening and see what the bit takes</p>
      </header>
      <NoteList said={said.filter(isPressing)} />
      {templates.length === 0 && <p class="empty">{noPlateWords(state)}</p>}
      {templates.map((template) => (
        <PlateView key={template.plate.name} template={template} />
      ))}
    </section>
  );
}

function noPlateWords(state: State): string {
  const made = madeOf(state);
  return made === 'made'
    ? 'This joint is cut by hand: it has patterns and markers, and no plate.'
    : awaited[made];
}

function PlateView({ template }: { readonly template: FingerTemplate }) {
  const { plate, drawing } = template;
  const [which, setWhich] = useState(0);
  const side = plate.sides[which] ?? plate.sides[0];
  const svg = useRef<SVGSVGElement>(null);
  const [place, setPlace] = useState<Point | undefined>();
  const [trail, setTrail] = useState<readonly Point[]>([]);
  const holding = useRef(false);
  if (!side) return null;
  const { cut, turned } = side;
  const { bit, bushing, depth } = cut;
  const radius = bushing.outside / 2;
  const material = materialOf(template);
  const near: Point = { x: side.referenceEdge, y: cut.nearEdge - bushing.outside };
  const start = turned ? { x: turned.x - near.x, y: turned.y - near.y } : near;
  const at = place ?? start;
  const margin = bushing.outside * 1.6;
  const box = extents(plate.outline);
  const edges = {
    minX: box.minX - 4,
    maxX: box.maxX + 4,
    minY: box.minY - margin,
    maxY: box.maxY + (plate.sides.length > 1 ? margin : 4),
  };
  const surface = radiusAt(bit, depth) * 2;

  const push = (to: Point) => {
    const inside = {
      x: Math.min(edges.maxX, Math.max(edges.minX, to.x)),
      y: Math.min(edges.maxY, Math.max(edges.minY, to.y)),
    };
    const way = pushBushing(material, radius - EASE, at, inside);
    const last = way.at(-1);
    if (!last) return;
    setPlace(last);
    setTrail([...(trail.length === 0 ? [at] : trail), ...way].slice(-MAX_TRAIL));
  };
  const pointer = (event: PointerEvent): Point | undefined => {
    const matrix = svg.current?.getScreenCTM();
    if (!matrix) return undefined;
    const spot = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
    return { x: spot.x, y: -spot.y };
  };
  const nudge = (event: KeyboardEvent) => {
    const way = steps[event.key];
    if (!way) return;
    event.preventDefault();
    const by = event.shiftKey ? 5 : 1;
    push({ x: at.x + way[0] * by, y: at.y + way[1] * by });
  };
  const spots = pathOfPoints(trail);
  const clip = `stock-${plate.name}`;
  const stock = screenPath(...drawing.items.flatMap((item) => (item.layer === 'STOCK' ? linesOf(item) : [])));
  const marks = screenPath(
    ...drawing.items.flatMap((item) =>
      item.layer === 'ENGRAVE' || item.layer === 'SCORE' ? linesOf(item) : [],
    ),
  );
  return (
    <figure class="plate">
      <figcaption>
        <b>{plate.name.replaceAll('-', ' ')}</b>
        <span>
          {bit.name}, bushing {bushing.name}
        </span>
        {plate.sides.length > 1 &&
          plate.sides.map((one, index) => (
            <button
              type="button"
              key={one.cut.board}
              aria-pressed={one === side}
              onClick={() => {
                setWhich(index);
                setPlace(undefined);
                setTrail([]);
              }}
            >
              {one.cut.board}
            </button>
          ))}
        <button type="button" disabled={trail.length === 0} onClick={() => setTrail([])}>
          new board
        </button>
      </figcaption>
      <div class="bench-scroll">
        {/* biome-ignore lint/a11y/useSemanticElements: a drawing cannot be a fieldset */}
        <svg
          ref={svg}
          viewBox={`${edges.minX} ${-edges.maxY} ${edges.maxX - edges.minX} ${edges.maxY - edges.minY}`}
          style={{ maxHeight: '60vh', minWidth: `${(edges.maxX - edges.minX) * SMALLEST}px` }}
          onPointerMove={(event) => {
            if (!holding.current) return;
            const spot = pointer(event);
            if (spot) push(spot);
          }}
          onPointerUp={() => {
            holding.current = false;
          }}
          onPointerCancel={() => {
            holding.current = false;
          }}
          role="group"
          aria-label={`${plate.name.replaceAll('-', ' ')} over its board`}
        >
          <defs>
            <clipPath id={clip}>
              <path d={stock} />
            </clipPath>
          </defs>
          <path class="stock" d={stock} />
          {trail.length > 1 && (
            <g clip-path={`url(#${clip})`}>
              <path class="taken" d={spots} stroke-width={bit.diameter} />
              {surface < bit.diameter - 1e-6 && (
                <path class="taken-surface" d={spots} stroke-width={surface} />
              )}
            </g>
          )}
          <path class="sheet" fill-rule="evenodd" d={screenPath(plate.outline, ...plate.holes)} />
          <path class="engraved" d={marks} />
          {/* biome-ignore lint/a11y/noInteractiveElementToNoninteractiveRole: it takes the arrow keys itself */}
          <g
            class="router"
            tabindex={0}
            role="application"
            aria-roledescription="bushing"
            aria-label={`Bushing ${bushing.name} with the bit ${bit.name}: arrow keys push it, with Shift five times as far`}
            transform={`translate(${at.x} ${-at.y})`}
            onKeyDown={nudge}
            onPointerDown={(event) => {
              holding.current = true;
              event.currentTarget.focus();
              svg.current?.setPointerCapture(event.pointerId);
              event.preventDefault();
            }}
          >
            <circle class="reach" r={Math.max(radius, 7)} />
            <circle class="bushing" r={radius} />
            <circle class="bit" r={bit.diameter / 2} />
            {surface < bit.diameter - 1e-6 && <circle class="bit-surface" r={surface / 2} />}
            <path class="centre" d="M-1.5 0H1.5M0 -1.5V1.5" />
          </g>
        </svg>
      </div>
    </figure>
  );
}

/** A bushing that binds by less than this still goes in, mm: an opening may be just as wide as it. */
const EASE = 5e-4;
const MAX_TRAIL = 4000;

/** What a pressed key pushes the bushing along x and y, mm. */
const steps: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** The plate's material as a region: its holes run clockwise there. */
function materialOf({ plate }: FingerTemplate): Region {
  return [plate.outline, ...plate.holes.map((hole) => (isCounterClockwise(hole) ? reversed(hole) : hole))];
}
