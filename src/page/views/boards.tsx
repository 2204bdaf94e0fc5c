import { lipOf } from '../../joints/boards.js';
import type { Face, Lip } from '../../joints/contract.js';
import type { BoardMarking, SolvedJoint } from '../../joints/family.js';
import { closedEndOf, viewsOf } from '../lipped.js';
import { pathOfRegion, screenPath } from '../screen-path.js';

/** Both boards of a joint as they lie on the bench, drawn from their marking out. Lengths in mm. */

/** How much of a board is shown behind its baseline. */
const shownBehind = ({ depth }: BoardMarking): number => Math.max(10, depth * 0.9);

/** The face that each view shows: of a board with its edge up `faceUpright`, of others the inside; turned end down, the other one. */
const faceDown = ({ faceUpright = 'inside' }: BoardMarking): Face =>
  faceUpright === 'inside' ? 'outside' : 'inside';
const faceUp = ({ faceUpright = 'inside' }: BoardMarking): Face => faceUpright;

/** The first board stands above the joint with its end down, seen on its outside face. */
export function UpperBoard({ marking }: { readonly marking: BoardMarking }) {
  const { width, depth, outsideFace, board } = marking;
  const body = depth + shownBehind(marking);
  return (
    <svg
      class="board first"
      viewBox={`0 ${-body} ${width} ${body}`}
      role="img"
      aria-label={`${board} board, ${faceDown(marking)} face`}
    >
      <path
        class="wood"
        fill-rule="evenodd"
        d={`M0 0H${width}V${-body}H0Z${pathOfRegion(outsideFace.waste)}`}
      />
      <Grain width={width} height={body} top={-body} />
      <path class="waste" d={pathOfRegion(outsideFace.waste)} />
      <path class="scribed" d={screenPath(...outsideFace.lines)} />
      <path class="baseline" d={`M0 ${-depth}H${width}`} />
    </svg>
  );
}

/** The second board lies below it, its end grain up and its inside face under that; a lipped front with its rabbet. */
export function LowerBoard({
  marking,
  lip,
}: {
  readonly marking: BoardMarking;
  readonly lip: Lip | undefined;
}) {
  const { width, depth, endGrain, insideFace, material, board } = marking;
  const shown = depth + shownBehind(marking);
  const views = viewsOf(marking, shown, lip);
  const top = material.thickness + views.lip.end;
  return (
    <svg
      class="board second"
      viewBox={`0 0 ${width} ${top + shown}`}
      role="img"
      aria-label={`${board} board, ${marking.over === 'edge' ? 'edge' : 'end grain'} and ${faceUp(marking)} face`}
    >
      <g transform="scale(1 -1)">
        <path class="wood end-grain" d={screenPath(views.end)} />
        <path class="waste" d={pathOfRegion(endGrain.waste)} />
        <path class="scribed" d={screenPath(...endGrain.lines)} />
      </g>
      <g transform={`translate(0 ${top})`}>
        <g transform="scale(1 -1)">
          <path class="wood rabbet" d={pathOfRegion(views.ledge)} />
          <path class="wood" d={screenPath(views.face)} />
        </g>
        <Grain width={width} height={shown} top={0} />
        <g transform="scale(1 -1)">
          <path class="waste" d={pathOfRegion(insideFace.waste)} />
          <path class="scribed" d={screenPath(...insideFace.lines)} />
        </g>
        <path class="arris" d={`M0 0H${width}`} />
        <path class="baseline" d={`M0 ${depth}H${width}`} />
      </g>
    </svg>
  );
}

/** The joint closed, seen on the first board's outside face: the other board's end shows between, its lip below. */
export function ClosedJoint({ solved }: { readonly solved: SolvedJoint }) {
  const [first, second] = solved.markings;
  if (!first || !second) return null;
  const { width, depth, outsideFace } = first;
  const { wood, lipFrom } = closedEndOf(first, second, lipOf(solved));
  const lap = Math.max(0, second.material.thickness - depth);
  const body = depth + shownBehind(first);
  return (
    <svg
      class="board closed"
      viewBox={`0 ${-body} ${width} ${body + lap}`}
      role="img"
      aria-label="closed joint"
    >
      <path class="wood second-end" d={screenPath(wood)} />
      {lipFrom < 0 && <path class="arris" d={`M0 ${-lipFrom}H${width}`} />}
      <path
        class="wood first-face"
        fill-rule="evenodd"
        d={`M0 0H${width}V${-body}H0Z${pathOfRegion(outsideFace.waste)}`}
      />
      <Grain width={width} height={body - depth} top={-body} />
      <path class="scribed" d={screenPath(...outsideFace.lines)} />
    </svg>
  );
}

/** A few quiet lines that say which way the grain runs: along the board, so up and down here. */
function Grain({
  width,
  height,
  top,
}: {
  readonly width: number;
  readonly height: number;
  readonly top: number;
}) {
  const count = Math.max(6, Math.round(width / 9));
  const lines = Array.from({ length: count }, (_, i) => {
    // The golden section spreads lines without a pattern and without a random number.
    const x = ((i * 0.618034) % 1) * width;
    const from = top + height * (((i * 0.381966) % 1) * 0.4);
    const bend = ((i % 5) - 2) * 0.25;
    return `M${x.toFixed(2)} ${from.toFixed(2)}q${bend} ${(height * 0.2).toFixed(2)} 0 ${(height * 0.45).toFixed(2)}`;
  });
  return <path class="grain" d={lines.join('')} />;
}
