import {
	type Belief,
	nominalArmM,
	nominalMomentNm,
	nominalRateNmPerRad,
	nominalTargetTensionN,
} from '../estimation/belief.ts';
import {replaced} from '../estimation/gaussian.ts';
import type {InstrumentModel} from '../estimation/instrument-model.ts';
import {priorSd} from '../estimation/priors.ts';

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
	const {rival: _, ...floating} = belief;
	const mean = Float64Array.from(belief.mean);
	let covariance = belief.covariance.clone();
	const totalNm = nominalMomentNm(model);
	const held = new Float64Array(layout.size);
	let packetVariance = 1e-8;
	mean[layout.balance] = -1;
	for (const [index, string] of model.strings.entries()) {
		const was = old.strings[index]!;
		const at = layout.pull(index);
		const pull = nominalTargetTensionN(was) / nominalTargetTensionN(string);
		const share = (nominalTargetTensionN(string) * nominalArmM(model, index)) / totalNm;
		mean[at] = pull;
		covariance = replaced(covariance, at, new Float64Array(layout.size), (oldPullSd * pull) ** 2);
		mean[layout.balance]! += share * pull;
		held[at] = share;
		// The same wire tuned elsewhere weighs what it weighed; another packet's has an error of its own.
		if (was.massPerLengthKgPerM === string.massPerLengthKgPerM) held[layout.mass(index)] = share * pull;
		else packetVariance += (share * pull * (string.wound ? priorSd.massWound : priorSd.massPlain)) ** 2;
	}

	covariance = replaced(covariance, layout.balance, held, packetVariance);
	const perRad = nominalRateNmPerRad(model) / totalNm;
	mean[layout.home] = mean[layout.balance]! - perRad * Math.asin(stoodM / model.tailArmM);
	const onlyBalance = new Float64Array(layout.size);
	onlyBalance[layout.balance] = 1;
	covariance = replaced(covariance, layout.home, onlyBalance, ((perRad * stoodSdM) / model.tailArmM) ** 2);
	return {...floating, mean, covariance};
}
