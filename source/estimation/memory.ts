import {isBareUnseen, takenApart} from './accounts.ts';
import {atRest, type Belief, nominalMomentNm, nominalRateNmPerRad, withRival} from './belief.ts';
import {replaced} from './gaussian.ts';
import type {Layout} from './layout.ts';

/** What an earlier set-up taught of an instrument: the lasting unknowns, in the order of `lastingEntries`. */
export interface Learned {
	readonly strings: number;
	readonly mean: readonly number[];
	readonly covariance: readonly (readonly number[])[];
	/** What clamping the nut does to each string, cents; null where it was never read. */
	readonly clamp?: readonly ({readonly mean: number; readonly sd: number} | null)[];
	/** How the plate answers its claw at pitch: the arm that acts, ln of metres. */
	readonly clawArm?: {readonly mean: number; readonly sd: number};
}

/** What may have changed since: strings and springs replaced, or only time. */
export interface SinceThen {
	readonly newStrings: boolean;
	readonly newSprings: boolean;
}

/** The entries that outlast a set-up: what the instrument is, not where its strings happen to stand. */
function lastingEntries(layout: Layout): number[] {
	const perString = Array.from({length: layout.strings}, (_, index) => [
		layout.stiffness(index),
		layout.mass(index),
		layout.behind(index),
	]);
	return [
		...perString.flat(),
		layout.rate,
		layout.home,
		layout.arm,
		layout.springArm,
		layout.stop,
		layout.friction,
		layout.setback,
	];
}

/** What a belief has to say to the instrument's next set-up. */
export function learnedFrom(found: Belief): Learned {
	const belief = withHome(found);
	const entries = lastingEntries(belief.layout);
	return {
		strings: belief.layout.strings,
		mean: entries.map(at => belief.mean[at]!),
		covariance: entries.map(row => entries.map(column => belief.covariance.get(row, column))),
	};
}

/** A fresh prior with the memory put in its place, widened for what changed. A memory of other strings in number, or of other unknowns, is ignored. */
export function recalled(prior: Belief, learned: Learned | undefined, since: SinceThen): Belief {
	const {layout} = prior;
	if (!learned || learned.strings !== layout.strings) return prior;
	const entries = lastingEntries(layout);
	if (!fits(learned, entries.length)) return prior;
	const mean = Float64Array.from(prior.mean);
	const covariance = prior.covariance.clone();
	for (const [row, at] of entries.entries()) {
		mean[at] = learned.mean[row]!;
		for (const [column, other] of entries.entries()) {
			const widened = at === other ? sinceThenSd(layout, at, since) ** 2 : 0;
			covariance.set(at, other, learned.covariance[row]![column]! + widened);
		}
	}

	const {rival: _, others: __, ...plain} = prior;
	const floating = atRest({...plain, mean, covariance});
	if (prior.others) return isBareUnseen(floating) ? takenApart(floating) : floating;
	return prior.rival ? withRival(floating) : floating;
}

/** A memory from a time when other things were remembered is no memory. */
function fits({mean, covariance}: Learned, size: number): boolean {
	return mean.length === size && covariance.length === size && covariance.every(row => row.length === size);
}

/** Judgement: what a few weeks, a new packet of the same strings or other springs change. */
function sinceThenSd(layout: Layout, at: number, {newStrings, newSprings}: SinceThen): number {
	if (at === layout.home) return newSprings ? 0.1 : 0.015;
	if (at === layout.rate) return newSprings ? 0.15 : 0.01;
	if (at === layout.arm || at === layout.springArm || at === layout.stop) return 0.005;
	if (at === layout.friction || at === layout.setback) return 0.0001;
	return newStrings ? 0.02 : 0.005;
}

/** Counted from its stop, a plate's level moment follows from balance, rate and stop; the memory keeps it as `home`. */
function withHome(belief: Belief): Belief {
	if (!belief.isFromStop) return belief;
	const {layout, model} = belief;
	const {rate, arm, stop, balance, home} = layout;
	const lift = (nominalRateNmPerRad(model) / nominalMomentNm(model)) * Math.exp(belief.mean[rate]! + belief.mean[arm]!);
	const row = new Float64Array(layout.size);
	row[balance] = 1;
	row[stop] = lift;
	row[rate] = lift * belief.mean[stop]!;
	row[arm] = lift * belief.mean[stop]!;
	const mean = Float64Array.from(belief.mean);
	mean[home] = belief.mean[balance]! + lift * belief.mean[stop]!;
	return {...belief, mean, covariance: replaced(belief.covariance, home, row, 1e-8)};
}
