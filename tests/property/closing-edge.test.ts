import { expectToClose } from '../support/closing.js';
import { edgeJobs } from '../support/edge-jobs.js';

expectToClose('edge', edgeJobs);
