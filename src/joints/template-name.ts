import type { Joint } from '../input/types.js';

/** The name of the template of one board; both boards' where they share a plate. */
export function templateName(joint: Joint, board: string): string {
  return `finger-template-${joint.template.plate === 'one' ? 'both' : board}`;
}
