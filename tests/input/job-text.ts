/** Jobs to start from in these tests: a specimen cabinet's tray corner and slide box. */

export const trayCorner = `title: Specimen cabinet, small tray
units: in
shop:
  bits:
    half-14:     { kind: dovetail, diameter: 1/2, angle: 14, height: 1/2, shank: 1/4 }
    half-8:      { kind: dovetail, diameter: 1/2, slope: 1:8, height: 13/16, shank: 1/4 }
    straight-38: { kind: straight, diameter: 3/8, height: 1-1/4, shank: 1/4 }
  bushings:
    seven-sixteenths: { outside: 7/16, bore: 3/8, barrel: 5/32 }
  plate:   { material: plywood, thickness: 1/2, least-finger: 3/16, sheet: [24, 12] }
  printer: { paper: letter, margin: 10 mm, scale-x: 1, scale-y: 1 }
  laser:   { kerf: 0.15 mm, bed: [600 mm, 400 mm] }
  cnc:     { cutter: 1/8, bed: [24, 16], rpm: 18000, feed: 1500 mm, plunge: 400 mm, pass: 3 mm, safe-height: 5 mm }
  colours: { CUT: "#D55E00", SCORE: "#0072B2" }
joints:
  tray-corner:
    kind: through-dovetail
    width: 3-1/2
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 1/2 } }
    layout: { spacing: even, tails: 3, pin: 1/2 }
    cutters: { tails: half-8, pins: straight-38 }
    bushing: seven-sixteenths
    fit: { slack: 0.004 }
`;

export const slideBox = `title: Slide box
units: mm
shop: ./shop.yaml
joints:
  box-corner:
    kind: box
    width: 96
    boards: { one: { thickness: 12 }, two: { thickness: 9, length: 200, material: lime } }
    layout: { finger: 12 }
    start: two
    cutter: straight-8
    bushing: sixteen
    fit: { slack: 0.1 }
    template: { hole: 4, margin: 30 }
`;

export const metricShop = `units: mm
bits:
  straight-8: { kind: straight, diameter: 8, height: 25 }
bushings:
  sixteen: { outside: 16, bore: 14 }
plate: { material: birch plywood, thickness: 12 }
`;
