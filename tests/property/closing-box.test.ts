import { expectToClose } from '../support/closing.js';
import { boxJobs } from '../support/random-jobs.js';

expectToClose('box', boxJobs);
