import { expectToClose } from '../support/closing.js';
import { togetherJobs } from '../support/random-half-blind.js';

expectToClose('half-blind, one template', togetherJobs);
