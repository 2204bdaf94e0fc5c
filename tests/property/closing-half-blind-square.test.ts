import { expectToClose } from '../support/closing.js';
import { squareJobs } from '../support/random-half-blind.js';

expectToClose('half-blind, square tails', squareJobs, 100);
