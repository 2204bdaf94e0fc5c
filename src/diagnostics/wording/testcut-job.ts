/** Sentences about which joints can be cut on paper, and from which files. */
export const testCutJobWording = {
  'template-missing': (d: { template: string }) =>
    `there is no ${d.template}.dxf and no ${d.template}.svg; write them with "halfpin make" (--only finger), or give the folder that holds this joint's folder`,
  'testcut-kind': (d: { kind: string }) =>
    `a ${d.kind} joint is not cut on paper by this version; close a joint in scrap before you cut good wood`,
  'testcut-by-hand': (_: object) => 'it is cut by hand, so there are no templates to prove',
};
