/** Sentences about which bits and bushings can cut a joint. */
export const kitWording = {
  'kit-by-hand': (d: { joint: string }) =>
    `${d.joint} names no bits and no bushing, so it is cut by hand; name any of your shop's, and ask again which are best`,
  'kit-none': (d: { joint: string; common: boolean }) =>
    `no bit and bushing ${d.common ? 'of your shop or of the common sizes' : 'of your shop'} can cut ${d.joint} as it is laid out; ${
      d.common
        ? 'wider spans (fewer tails or fingers) ask less of the tools'
        : '--common tries sizes that can be bought, and wider spans ask less of the tools'
    }`,
  'kit-untried': (d: { tried: number; untried: number }) =>
    `${d.tried} sets of tools were tried, ${d.untried} more were not: they go by the order of the shop file, those that change one bit before the others; a shorter list of bits and bushings lets the rest have their turn`,
};
