import type { Result } from '../../src/diagnostics/diagnostic.js';
import { type TestCut, type TestCutRequest, testCut } from '../../src/verify/assemble.js';
import { readDxf, readSvg, type WrittenDrawing } from '../../src/verify/files/read.js';
import {
  boxTemplate,
  dxfText,
  type HandBox,
  type HandTemplate,
  type HandThrough,
  svgText,
  throughPinsTemplate,
  throughTailsTemplate,
  widthOf,
} from './hand-templates.js';

/** How hand-made templates are written, read back, cut and assembled in the tests of the test cut. */

export function settled<T>(result: Result<T>): T {
  if (!result.ok)
    throw new Error(result.diagnostics.map(({ code, data }) => `${code} ${JSON.stringify(data)}`).join('; '));
  return result.value;
}

export function viaDxf(name: string, template: HandTemplate): WrittenDrawing {
  return settled(readDxf(`${name}.dxf`, dxfText(template)));
}

export function viaSvg(name: string, template: HandTemplate): WrittenDrawing {
  return settled(readSvg(`${name}.svg`, svgText(template)));
}

/** What differs between the joint as designed and as routed; nothing unless given. */
export interface AsRouted {
  readonly tails?: HandTemplate;
  readonly pins?: HandTemplate;
  readonly one?: HandTemplate;
  readonly two?: HandTemplate;
  /** Added to the sizes that the templates were made for, mm. */
  readonly dovetail?: number;
  readonly straight?: number;
  readonly bushing?: number;
  readonly depth?: number;
  readonly via?: typeof viaDxf;
  readonly levels?: number;
}

export function throughRequest(joint: HandThrough, routed: AsRouted = {}): TestCutRequest {
  const via = routed.via ?? viaDxf;
  const bushing = joint.bushing + (routed.bushing ?? 0);
  return {
    joint: 'by-hand',
    assembly: { way: 'crossed', boards: ['tails', 'pins'] },
    width: widthOf(joint),
    boards: [
      {
        board: 'tails',
        cutter: { diameter: joint.dovetail + (routed.dovetail ?? 0), angle: joint.angle },
        bushing,
        depth: joint.pinBoard + (routed.depth ?? 0),
        thickness: joint.tailBoard,
        drawing: via('finger-template-tails', routed.tails ?? throughTailsTemplate(joint)),
      },
      {
        board: 'pins',
        cutter: { diameter: joint.straight + (routed.straight ?? 0), angle: 0 },
        bushing,
        depth: joint.tailBoard + (routed.depth ?? 0),
        thickness: joint.pinBoard,
        drawing: via('finger-template-pins', routed.pins ?? throughPinsTemplate(joint)),
      },
    ],
    ...(routed.levels ? { levels: routed.levels } : {}),
  };
}

export function cutThrough(joint: HandThrough, routed: AsRouted = {}): TestCut {
  return settled(testCut(throughRequest(joint, routed)));
}

export function boxRequest(joint: HandBox, routed: AsRouted = {}): TestCutRequest {
  const via = routed.via ?? viaDxf;
  const board = (name: 'one' | 'two') => ({
    board: name,
    cutter: { diameter: joint.bit + (routed.straight ?? 0), angle: 0 },
    bushing: joint.bushing + (routed.bushing ?? 0),
    depth: joint[name === 'one' ? 'two' : 'one'] + (routed.depth ?? 0),
    thickness: joint[name],
    drawing: via(`finger-template-${name}`, routed[name] ?? boxTemplate(joint, name)),
  });
  return {
    joint: 'by-hand',
    assembly: { way: 'crossed', boards: ['one', 'two'] },
    width: joint.boundaries.at(-1) ?? 0,
    boards: [board('one'), board('two')],
    ...(routed.levels ? { levels: routed.levels } : {}),
  };
}

export function cutBox(joint: HandBox, routed: AsRouted = {}): TestCut {
  return settled(testCut(boxRequest(joint, routed)));
}
