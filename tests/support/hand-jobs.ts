import fc from 'fast-check';

/** A joint cut by hand, at any width, slope and spacing. */
export const handJobs: fc.Arbitrary<string> = fc
  .record({
    kind: fc.constantFrom('through-dovetail', 'half-blind-dovetail', 'box'),
    width: fc.integer({ min: 20, max: 900 }),
    tails: fc.integer({ min: 1, max: 9 }),
    thin: fc.integer({ min: 5, max: 10 }),
    thick: fc.integer({ min: 12, max: 25 }),
    slope: fc.constantFrom('1:5', '1:6', '1:8', '9 degrees'),
    spacing: fc.constantFrom('even', 'graduated', 'varied'),
    units: fc.constantFrom('mm', 'in'),
  })
  .map(({ kind, width, tails, thin, thick, slope, spacing, units }) => {
    const [first, second] = kind === 'box' ? ['one', 'two'] : ['tails', 'pins'];
    return JSON.stringify({
      title: 'Specimen cabinet, tray for the pressed ferns',
      units,
      joints: {
        'a-long-name-for-a-corner': {
          kind,
          width: `${width} mm`,
          boards: { [first]: { thickness: `${thin} mm` }, [second]: { thickness: `${thick} mm` } },
          ...(kind === 'box'
            ? { layout: { fingers: 2 * tails + 1 } }
            : { slope, layout: { spacing, tails, ...(spacing === 'graduated' ? { ratio: 0.9 } : {}) } }),
        },
      },
    });
  });
