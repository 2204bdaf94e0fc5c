/** The public API of halfpin. */
export type { Job, Joint, Shop } from './job/types.js';
