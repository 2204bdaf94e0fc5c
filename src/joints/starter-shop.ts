/** The workshop part of every starter job: sizes to be replaced by what a caliper says. */
export const starterShop = `shop:                           # or: shop: ./shop.yaml, shared by all your jobs
  bits:                         # measure them: a tenth of a millimetre shows in the joint
    half-8:      { kind: dovetail, diameter: 1/2, angle: 8,  height: 13/16, shank: 1/4 }
    half-14:     { kind: dovetail, diameter: 1/2, angle: 14, height: 1/2,   shank: 1/4 }
    straight-38: { kind: straight, diameter: 3/8, height: 3/4, shank: 1/4 }
  bushings:                     # outside diameter counts twice: measure it too
    seven-sixteenths: { outside: 7/16, bore: 3/8, barrel: 5/32 }
    half:             { outside: 1/2, bore: 13/32, barrel: 5/32 }
  plate: { material: plywood, thickness: 1/2, least-finger: 3/16 }
  printer: { paper: letter }    # or a4, a3, legal, tabloid
`;
