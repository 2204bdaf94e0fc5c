import { type LengthUnit, MM_PER_INCH } from '../../units/length.js';
import { pathOfPoints } from '../screen-path.js';

/** A rule laid along the joint, its zero at the reference edge. Ticks are thinned to what the screen can show. */
export function Rule({
  width,
  units,
  scale,
}: {
  /** mm */
  readonly width: number;
  readonly units: LengthUnit;
  /** Pixels to a mm. */
  readonly scale: number;
}) {
  const unit = units === 'mm' ? 10 : MM_PER_INCH;
  const parts = units === 'mm' ? [10, 2, 1] : [16, 8, 4, 2, 1];
  const fine = parts.find((one) => (unit / one) * scale >= MIN_GAP) ?? 1;
  const digits = String(Math.round(units === 'mm' ? width : width / unit)).length;
  const every = Math.max(1, Math.ceil((digits * DIGIT + AROUND) / (unit * scale)));
  const count = Math.floor((width / unit) * fine + 1e-6);
  const ticks = Array.from({ length: count + 1 }, (_, i) => i);
  return (
    <div class="rule" aria-hidden="true">
      <svg role="presentation" viewBox={`0 0 ${width} 1`} preserveAspectRatio="none">
        <path
          d={ticks.map((i) => tickAt((i * unit) / fine, heightOf(i, fine))).join('')}
          vector-effect="non-scaling-stroke"
        />
      </svg>
      {ticks
        .filter((i) => i % (fine * every) === 0)
        .map((i) => (
          <span key={i} style={{ left: `${((i * unit) / fine / width) * 100}%` }}>
            {units === 'mm' ? (i / fine) * 10 : i / fine}
          </span>
        ))}
    </div>
  );
}

const tickAt = (x: number, height: number): string =>
  pathOfPoints([
    { x, y: 0 },
    { x, y: -height },
  ]);

/** Ticks nearer than this are a smear, px. */
const MIN_GAP = 4;
/** How wide a digit is, and how much is left free beside a number so that none run together, px. */
const DIGIT = 8;
const AROUND = 10;

/** The coarser the division, the longer its tick, as a share of the rule. */
function heightOf(index: number, fine: number): number {
  for (let part = 1, height = 0.62; part <= fine; part *= 2, height *= 0.78) {
    if ((index * part) % fine === 0) return height;
  }
  return 0.25;
}
