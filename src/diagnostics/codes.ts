import { askedWording } from './wording/asked.js';
import { plateCutWording } from './wording/cam.js';
import { edgeWording } from './wording/edge.js';
import { jobWording } from './wording/job.js';
import { jointWording } from './wording/joints.js';
import { kitWording } from './wording/kit.js';
import { layoutWording } from './wording/layout.js';
import { modelWording } from './wording/model.js';
import { paperWording } from './wording/paper.js';
import { refitWording } from './wording/refit.js';
import { sheetWording } from './wording/sheet.js';
import { templateWording } from './wording/template.js';
import { testCutWording } from './wording/testcut.js';
import { testCutJobWording } from './wording/testcut-job.js';
import { toleranceWording } from './wording/tolerance.js';

/**
 * Every code that halfpin can report and its sentence: what was read or worked out, and what works.
 * Codes are stable; each stage keeps its wording in a file of its own.
 */
export const wordings = {
  ...jobWording,
  ...askedWording,
  ...layoutWording,
  ...kitWording,
  ...jointWording,
  ...edgeWording,
  ...templateWording,
  ...refitWording,
  ...sheetWording,
  ...testCutWording,
  ...toleranceWording,
  ...testCutJobWording,
  ...paperWording,
  ...modelWording,
  ...plateCutWording,
};

export type Wordings = typeof wordings;
