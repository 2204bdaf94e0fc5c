import { expectToClose } from '../support/closing.js';
import { throughDovetailJobs } from '../support/random-jobs.js';

expectToClose('through-dovetail', throughDovetailJobs);
