import { expectToClose } from '../support/closing.js';
import { apartJobs } from '../support/random-half-blind.js';

expectToClose('half-blind, two templates', apartJobs);
