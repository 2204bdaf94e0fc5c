/**
 * Templates worked out by hand from the trade's rules, as DXF and SVG text, without any of halfpin's own
 * layout, compensation or writers: what the test cut is tried on. Millimetres and radians.
 */

/** A corner of a closed ring; `bulge` bends the step to the next corner (tan of a quarter of its angle). */
export interface Corner {
  readonly x: number;
  readonly y: number;
  readonly bulge?: number;
}

export type Ring = readonly Corner[];

export interface HandTemplate {
  readonly cut: readonly Ring[];
  readonly stock: readonly Ring[];
}

/** One opening of a comb: its sides at the operator's edge and at its far end. */
export interface Opening {
  readonly near: readonly [number, number];
  readonly far: readonly [number, number];
}

export interface Comb {
  readonly width: number;
  readonly thickness: number;
  readonly openings: readonly Opening[];
  /** Beyond the operator's face of the board. */
  readonly nose: number;
  /** How far openings run past the back face. */
  readonly run: number;
  readonly margin: number;
  readonly spine: number;
  /** Radius of the far corners, 0 for square ones; only where the sides are straight. */
  readonly corner: number;
}

/** A plate with openings from the operator's edge (lower y), in template coordinates. */
export function comb(parts: Comb): HandTemplate {
  const { width, thickness, nose, run, margin, spine, corner } = parts;
  const near = -thickness - nose;
  const left = Math.min(-margin, ...parts.openings.map(({ far }) => far[0] - margin));
  const right = Math.max(width + margin, ...parts.openings.map(({ far }) => far[1] + margin));
  const ring: Corner[] = [
    { x: right, y: near },
    { x: right, y: run + spine },
    { x: left, y: run + spine },
    { x: left, y: near },
  ];
  const quarter = -Math.tan(Math.PI / 8); // clockwise quarter turn: the plate lies outside
  for (const opening of parts.openings) {
    const [a, b] = opening.far;
    ring.push({ x: opening.near[0], y: near });
    if (corner > 0) {
      ring.push({ x: a, y: run - corner, bulge: quarter }, { x: a + corner, y: run });
      ring.push({ x: b - corner, y: run, bulge: quarter }, { x: b, y: run - corner });
    } else ring.push({ x: a, y: run }, { x: b, y: run });
    ring.push({ x: opening.near[1], y: near });
  }
  return {
    cut: [ring],
    stock: [
      [
        { x: 0, y: -thickness },
        { x: width, y: -thickness },
        { x: width, y: 0 },
        { x: 0, y: 0 },
      ],
    ],
  };
}

/** A through dovetail by its widths at the baseline: pins b₀ … bₙ, tails a₁ … aₙ. */
export interface HandThrough {
  readonly pins: readonly number[];
  readonly tails: readonly number[];
  /** D and θ of the dovetail bit, d of the straight one, B of the bushing. */
  readonly dovetail: number;
  readonly angle: number;
  readonly straight: number;
  readonly bushing: number;
  readonly tailBoard: number;
  readonly pinBoard: number;
  readonly nose: number;
  /** Whole clearance of a pair; taken off the pins. */
  readonly slack: number;
}

export function widthOf(joint: HandThrough): number {
  return [...joint.pins, ...joint.tails].reduce((sum, span) => sum + span, 0);
}

/** Left and right of every pin at the baseline. */
export function pinsAtBaseline(joint: HandThrough): readonly (readonly [number, number])[] {
  let x = 0;
  return joint.pins.map((pin, i) => {
    const span = [x, x + pin] as const;
    x += pin + (joint.tails[i] ?? 0);
    return span;
  });
}

/** Openings for the tails: [left − (B − D)/2, right + (B − D)/2], straight; end ones run off the board. */
export function throughTailsTemplate(joint: HandThrough): HandTemplate {
  const wider = (joint.bushing - joint.dovetail) / 2;
  const off = joint.bushing + joint.dovetail;
  const width = widthOf(joint);
  const openings = pinsAtBaseline(joint).map(([from, to], i, all) => {
    const left = i === 0 ? -off : from - wider;
    const right = i === all.length - 1 ? width + off : to + wider;
    return { near: [left, right], far: [left, right] } as const;
  });
  return comb({
    width,
    thickness: joint.tailBoard,
    openings,
    nose: joint.nose,
    run: joint.dovetail / 2 + joint.bushing,
    margin: 20,
    spine: 30,
    corner: joint.bushing / 2,
  });
}

/**
 * Fingers for the pins: the pin's plan (widest at y = 0, the inside face, narrower by k per unit and side
 * toward the operator) moved inward square to its sides by (B − d)/2, so by (B − d)/(2 cos θ) along x.
 * The openings are what stands between them.
 */
export function throughPinsTemplate(joint: HandThrough): HandTemplate {
  const k = Math.tan(joint.angle);
  const inward = (joint.bushing - joint.straight) / (2 * Math.cos(joint.angle)) + joint.slack / 2;
  const run = joint.straight / 2 + joint.bushing;
  const near = -joint.pinBoard - joint.nose;
  const pins = pinsAtBaseline(joint);
  const openings = pins.slice(1).map(([nextFrom], i) => {
    const to = pins[i]?.[1] ?? Number.NaN;
    const at = (y: number): readonly [number, number] => [to + k * y - inward, nextFrom - k * y + inward];
    return { near: at(near), far: at(run) };
  });
  return comb({
    width: widthOf(joint),
    thickness: joint.pinBoard,
    openings,
    nose: joint.nose,
    run,
    margin: 20,
    spine: 30,
    corner: 0,
  });
}

/** A box joint by its boundaries; board one keeps the even spans, board two the odd ones. */
export interface HandBox {
  readonly boundaries: readonly number[];
  readonly bit: number;
  readonly bushing: number;
  readonly one: number;
  readonly two: number;
  readonly slack: number;
}

/** Openings s + (B − d) wide about each slot, widened by a quarter of the slack a side; end ones run off. */
export function boxTemplate(joint: HandBox, board: 'one' | 'two'): HandTemplate {
  const width = joint.boundaries.at(-1) ?? 0;
  const wider = (joint.bushing - joint.bit) / 2 + joint.slack / 4;
  const off = joint.bushing + joint.bit;
  const openings: Opening[] = [];
  for (let i = board === 'one' ? 1 : 0; i + 1 < joint.boundaries.length; i += 2) {
    const from = joint.boundaries[i] ?? Number.NaN;
    const to = joint.boundaries[i + 1] ?? Number.NaN;
    const left = from === 0 ? -off : from - wider;
    const right = to === width ? width + off : to + wider;
    openings.push({ near: [left, right], far: [left, right] });
  }
  return comb({
    width,
    thickness: joint[board],
    openings,
    nose: 6,
    run: joint.bit / 2 + joint.bushing,
    margin: 20,
    spine: 30,
    corner: joint.bushing / 2,
  });
}

/** The same template with every corner moved; used to put faults in. */
export function moved(template: HandTemplate, move: (corner: Corner) => Corner): HandTemplate {
  return { cut: template.cut.map((ring) => ring.map(move)), stock: template.stock };
}

export interface DxfOptions {
  /** $INSUNITS; left out when undefined is given on purpose. */
  readonly units?: 1 | 4 | undefined;
  /** false leaves the closed flag off and the ring open. */
  readonly closed?: boolean;
}

/** ASCII DXF with one LWPOLYLINE a ring, in mm or inches. */
export function dxfText(template: HandTemplate, options: DxfOptions = { units: 4 }): string {
  const scale = options.units === 1 ? 1 / 25.4 : 1;
  const out: (string | number)[] = [];
  out.push(0, 'SECTION', 2, 'HEADER');
  if (options.units !== undefined) out.push(9, '$INSUNITS', 70, options.units);
  out.push(0, 'ENDSEC', 0, 'SECTION', 2, 'ENTITIES');
  const rings = [
    ...template.cut.map((ring) => ['CUT', ring] as const),
    ...template.stock.map((ring) => ['STOCK', ring] as const),
  ];
  for (const [layer, ring] of rings) {
    const flag = options.closed === false && layer === 'CUT' ? 0 : 1;
    out.push(0, 'LWPOLYLINE', 100, 'AcDbEntity', 8, layer, 100, 'AcDbPolyline', 90, ring.length, 70, flag);
    for (const { x, y, bulge } of ring) {
      out.push(10, (x * scale).toFixed(8), 20, (y * scale).toFixed(8));
      if (bulge !== undefined) out.push(42, bulge.toFixed(12));
    }
  }
  out.push(0, 'ENDSEC', 0, 'EOF');
  return `${out.join('\n')}\n`;
}

/** SVG in mm with y turned down, one group a layer, quarter turns as arcs. */
export function svgText(template: HandTemplate): string {
  const group = (layer: string, rings: readonly Ring[]): string =>
    `<g id="${layer}" fill="none">\n${rings.map((ring) => `<path d="${svgPath(ring)}"/>`).join('\n')}\n</g>`;
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="200mm" viewBox="-100 -100 400 200">
<!-- a <g id="CUT"> in a comment is no group -->
${group('CUT', template.cut)}
${group('STOCK', template.stock)}
</svg>
`;
}

function svgPath(ring: Ring): string {
  const steps = ring.map((from, i) => {
    const to = ring[(i + 1) % ring.length] ?? from;
    const end = `${to.x.toFixed(8)} ${(-to.y).toFixed(8)}`;
    if (from.bulge === undefined) return i + 1 === ring.length ? '' : `L${end}`;
    const sweep = 4 * Math.atan(from.bulge);
    const radius = Math.hypot(to.x - from.x, to.y - from.y) / (2 * Math.sin(Math.abs(sweep) / 2));
    return `A${radius} ${radius} 0 ${Math.abs(sweep) > Math.PI ? 1 : 0} ${sweep > 0 ? 0 : 1} ${end}`;
  });
  const start = ring[0];
  return `M${start?.x.toFixed(8)} ${(-(start?.y ?? 0)).toFixed(8)}${steps.join('')}Z`;
}
