import type { Say } from '../say.js';

/** Sentences about the test cut: files read back, boards cut and assembled on paper. Lengths in mm. */
export const testCutWording = {
  'drawing-unreadable': (d: { because: string }) =>
    `the drawing cannot be read back: ${d.because}; make it again`,
  'drawing-units': (d: { read: string }) =>
    `the drawing does not say its units (read ${d.read}); in DXF set $INSUNITS to 4 for mm or 1 for inches, in SVG give width and height as lengths`,
  'contour-open': (d: { layer: string; x: number; y: number; apart: number }, say: Say) =>
    `a contour on layer ${d.layer} is open: its ends stand ${say.length(d.apart)} apart at x ${say.length(d.x)}, y ${say.length(d.y)}; close it`,
  'layer-empty': (d: { layer: string }) =>
    `layer ${d.layer} holds no contour; the test cut needs the plate on CUT and the board's end on STOCK`,
  'stock-differs': (d: { side: string; read: number; wanted: number }, say: Say) =>
    `the board drawn on layer STOCK has a ${d.side} of ${say.length(d.read)} where the job has ${say.length(d.wanted)}; the drawing's scale or its job is wrong`,
  'board-uncut': (d: { board: string; bushing: number }, say: Say) =>
    `no bit touches board "${d.board}": its openings do not let a bushing of ${say.length(d.bushing)} in from the operator's side`,
  'joint-closes': (d: { gap: number; overlap: number }, say: Say) =>
    `cut on paper the joint closes: worst gap ${say.length(d.gap)}, worst overlap ${say.length(d.overlap)}`,
  'joint-gaps': (d: { gap: number; allowed: number; x: number; z: number }, say: Say) =>
    `cut on paper the joint gapes by ${say.length(d.gap)} where ${say.length(d.allowed)} is meant, at ${say.length(d.x)} from the reference edge and ${say.length(d.z)} from the end; check bit, bushing and template`,
  'joint-overlaps': (d: { overlap: number; x: number; z: number }, say: Say) =>
    `cut on paper the boards want ${say.length(d.overlap)} of the same room, at ${say.length(d.x)} from the reference edge and ${say.length(d.z)} from the end; check bit, bushing and template`,
  'joint-tight': (d: { play: number; slack: number; x: number; z: number }, say: Say) =>
    `cut on paper a tail, pin or finger has ${say.length(d.play)} of play where ${say.length(d.slack)} is asked, at ${say.length(d.x)} from the reference edge and ${say.length(d.z)} from the end: it is tighter than meant; check bit, bushing and template`,
};
