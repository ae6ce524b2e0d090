import type {Belief} from './belief.ts';
import type {Happening} from './happening.ts';
import {learn} from './learn.ts';

/** The belief after a whole story, in order. */
export function believe(prior: Belief, happenings: readonly Happening[]): Belief {
	return happenings.reduce(learn, prior);
}
