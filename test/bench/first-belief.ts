import {type Belief, priorBelief} from '../../source/estimation/belief.ts';
import type {Guitar} from '../../source/practice/index.ts';
import {modelOf} from './model-of.ts';

/** The belief a person starts with who says what strings are on and whether they are new or still slack. */
export function firstBelief(guitar: Guitar, isNew: boolean, isSlack: boolean): Belief {
	return priorBelief(modelOf(guitar.spec), {nut: guitar.nut, newness: isNew ? 1 : 0, isBare: isSlack});
}
