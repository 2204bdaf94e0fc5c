import { describe, expect, it } from 'vitest';
import { wordings } from '../../src/diagnostics/codes.js';
import { diagnostic } from '../../src/diagnostics/diagnostic.js';
import { formatDiagnostics } from '../../src/diagnostics/format.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { jobWording } from '../../src/diagnostics/wording/job.js';
import { jointWording } from '../../src/diagnostics/wording/joints.js';
import { layoutWording } from '../../src/diagnostics/wording/layout.js';
import { templateWording } from '../../src/diagnostics/wording/template.js';

const angle = diagnostic('angle-range', 'refused', 'shop.bits.a.angle', {
  read: '60',
  radians: Math.PI / 3,
  least: 0.5,
  under: 45,
});
const bore = diagnostic('bushing-bore', 'caution', 'shop.bushings.a.bore', { bore: 12.7, outside: 11.1125 });
const place = { file: 'shop.yaml', line: 3, column: 5 };

describe('a list of findings', () => {
  it('is one line each: file, line, column, key, what was read and what would do', () => {
    expect(formatDiagnostics([angle, bore], () => place, formatterFor('mm'))).toEqual([
      'shop.yaml:3:5: shop.bits.a.angle: read 60, which is 60°; an angle from square is 0.5° or more and under 45°, such as 8 or 14',
      'shop.yaml:3:5: shop.bushings.a.bore: caution: a bore of 12.7 mm (1/2 in) leaves no wall in a bushing of 11.113 mm (7/16 in) outside; ' +
        'measure both again: the bore is commonly 1/16 to 3/32 in less than the outside',
    ]);
  });

  it('speaks in the units of the reader', () => {
    expect(formatDiagnostics([bore], () => undefined, formatterFor('in'))[0]).toMatch(
      /^shop\.bushings\.a\.bore: caution: a bore of 1\/2 in \(12\.7 mm\)/,
    );
  });

  it('leaves out a key that there is none of', () => {
    const whole = diagnostic('text-empty', 'refused', '', { base: '' });
    const spot = diagnostic('yaml-documents', 'refused', '@18:1', {});
    const lines = formatDiagnostics([whole, spot], () => place, formatterFor('mm'));
    for (const line of lines) expect(line).toMatch(/^shop\.yaml:3:5: (the file|a second)/);
  });
});

describe('codes', () => {
  it('are words with hyphens, each with one sentence in one room', () => {
    const rooms = [jobWording, layoutWording, jointWording, templateWording];
    const codes = rooms.flatMap((room) => Object.keys(room));
    expect(new Set(codes).size).toBe(codes.length);
    for (const code of codes) {
      expect(code).toMatch(/^[a-z]+(-[a-z]+)*$/);
      expect(wordings).toHaveProperty([code]);
    }
  });

  it('of the job stay as they are: scripts and reports go by them', () => {
    expect(Object.keys(jobWording).sort()).toMatchInlineSnapshot(`
      [
        "alias-in-itself",
        "alias-unknown",
        "angle-range",
        "angle-unclear",
        "bit-angle-missing",
        "bit-angle-straight",
        "bit-angle-twice",
        "bit-pointed",
        "bit-wrong-kind",
        "bushing-bore",
        "bushing-missing",
        "colour-unquoted",
        "comma-split",
        "cutters-missing",
        "field-of-spacing",
        "findings-more",
        "fractions-in-mm",
        "job-is-shop",
        "joints-many",
        "joints-none",
        "key-elsewhere",
        "key-missing",
        "key-odd",
        "key-of-joint",
        "key-of-kind",
        "key-twice",
        "key-unknown",
        "length-great",
        "length-not-positive",
        "length-small",
        "length-unclear",
        "list-length",
        "name-alike",
        "name-unfit",
        "number-range",
        "paper-margins",
        "plate-missing",
        "shop-is-job",
        "shop-itself",
        "shop-nested",
        "shop-unreadable",
        "slope-missing",
        "slope-twice",
        "text-binary",
        "text-empty",
        "text-long",
        "text-unfit",
        "tool-unknown",
        "value-missing",
        "value-unfit",
        "value-unlisted",
        "value-unsaid",
        "values-many",
        "yaml-documents",
        "yaml-nested",
        "yaml-unreadable",
      ]
    `);
  });
});
