import {type Belief, nominalMomentNm, nominalRateNmPerRad, nominalTargetTensionN} from '../estimation/belief.ts';
import {replaced} from '../estimation/gaussian.ts';
import type {InstrumentModel} from '../estimation/instrument-model.ts';

/** Old strings as they come in, shares of their pull at pitch: a semitone off all round would be 0.12. Judgement. */
const oldPullSd = 0.05;
/** How nearly the plate stood as wished, if nobody measured it, metres at the tail. Judgement. */
const stoodSdM = 0.0007;

/**
 * A belief about new strings or a new tuning, for a guitar that came in with
 * the old ones: the springs held what the *old* strings pulled at their own
 * pitch, and the plate stood about as the owner wants it. Everything that the
 * change will do to the bridge follows from that difference.
 *
 * @param belief Before any fact, its model that of the new strings.
 * @param old The same instrument with the strings and targets that were on.
 * @param stoodM Tail height it is taken to have stood at, metres, positive = high.
 */
export function withOldStrings(belief: Belief, old: InstrumentModel, stoodM: number): Belief {
	const {layout, model} = belief;
	const mean = Float64Array.from(belief.mean);
	let covariance = belief.covariance.clone();
	const pulls = old.strings.map(nominalTargetTensionN);
	const totalN = pulls.reduce((sum, pull) => sum + pull, 0);
	const momentShare = nominalMomentNm(old) / nominalMomentNm(model);
	const fromPulls = new Float64Array(layout.size);
	for (const [index, string] of model.strings.entries()) {
		const at = layout.pull(index);
		const pull = pulls[index]! / nominalTargetTensionN(string);
		mean[at] = pull;
		covariance = replaced(covariance, at, new Float64Array(layout.size), (oldPullSd * pull) ** 2);
		// A share more on one string was a share more that the springs held.
		fromPulls[at] = ((pulls[index]! / totalN) * momentShare) / pull;
	}

	mean[layout.balance] = momentShare - 1;
	// What the packets do not tell of the old strings' mass: independent from string to string.
	const packetSd = 0.03 / Math.sqrt(model.strings.length);
	covariance = replaced(covariance, layout.balance, fromPulls, (packetSd * momentShare) ** 2);
	const perRad = nominalRateNmPerRad(model) / nominalMomentNm(model);
	mean[layout.home] = mean[layout.balance]! - perRad * Math.asin(stoodM / model.tailArmM);
	const onlyBalance = new Float64Array(layout.size);
	onlyBalance[layout.balance] = 1;
	covariance = replaced(covariance, layout.home, onlyBalance, ((perRad * stoodSdM) / model.tailArmM) ** 2);
	return {...belief, mean, covariance};
}
