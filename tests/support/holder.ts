/** A box joint whose openings are too near for its bushing: a plate with every second slot cuts it. `more` are further fields. */
export const holder = (more = ''): string => `
title: Specimen cabinet
units: in
shop: ./shop.yaml
joints:
  holder:
    kind: box
    width: 2-1/4
    boards: { one: { thickness: 1/4 }, two: { thickness: 1/4 } }
    layout: { spacing: even, finger: 1/4 }
    cutter: straight-6
    bushing: five-eighths
    fit: { slack: 0.1 mm }
${more}`;

/** The fields that make it so. */
export const EVERY_SECOND = '    template: { slots: every-second }';
