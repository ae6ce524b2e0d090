import {type Belief, withRival} from './belief.ts';
import {priorSd} from './priors.ts';

/** Rates less sure than this share of what is assumed of any bridge have not been seen to answer. */
const unseenShare = 0.9;

/**
 * A bridge never seen, with what its parts have in common: springs know
 * nothing of the saddles' height, so K / h² is less where h is more, and more
 * where the springs' arm is. Claw turns for a change go with h K⁻¹, and taken
 * apart the two would make them seem twice as unsure as they are. Once strings
 * have answered one another, what was learned stands instead.
 */
export function asBuilt(belief: Belief): Belief {
	const {rate, arm, springArm} = belief.layout;
	const {covariance: found} = belief;
	if (found.get(rate, rate) < unseenShare * priorSd.rate ** 2) return belief;
	// Built so already; what was learned since stands.
	if (found.get(rate, arm) <= -found.get(arm, arm)) return belief;
	const covariance = found.clone();
	const together = (other: number, value: number) => {
		covariance.set(rate, other, value);
		covariance.set(other, rate, value);
	};
	together(arm, -2 * found.get(arm, arm));
	together(springArm, 2 * found.get(springArm, springArm));
	return {...belief, covariance};
}

/**
 * The prior of a bridge whose springs somebody measured, before anything else
 * is told of it: a length of the springs' arm then tells of their rate too.
 */
export function priorAsBuilt(prior: Belief): Belief {
	const {rival, ...floating} = prior;
	return rival ? withRival(asBuilt(floating)) : asBuilt(floating);
}
