import type {Belief} from './belief.ts';
import type {Layout} from './layout.ts';

/** What an earlier set-up taught of an instrument: the lasting unknowns, in the order of `lastingEntries`. */
export interface Learned {
	readonly strings: number;
	readonly mean: readonly number[];
	readonly covariance: readonly (readonly number[])[];
}

/** What may have changed since: strings and springs replaced, or only time. */
export interface SinceThen {
	readonly newStrings: boolean;
	readonly newSprings: boolean;
}

/** The entries that outlast a set-up: what the instrument is, not where its strings happen to stand. */
function lastingEntries(layout: Layout): number[] {
	const perString = Array.from({length: layout.strings}, (_, index) => [layout.stiffness(index), layout.mass(index)]);
	return [...perString.flat(), layout.rate, layout.home, layout.arm, layout.springArm, layout.stop];
}

/** What a belief has to say to the instrument's next set-up. */
export function learnedFrom(belief: Belief): Learned {
	const entries = lastingEntries(belief.layout);
	return {
		strings: belief.layout.strings,
		mean: entries.map(at => belief.mean[at]!),
		covariance: entries.map(row => entries.map(column => belief.covariance.get(row, column))),
	};
}

/** A fresh prior with the memory put in its place, widened for what changed. A memory of other strings in number is ignored. */
export function recalled(prior: Belief, learned: Learned | undefined, since: SinceThen): Belief {
	const {layout} = prior;
	if (!learned || learned.strings !== layout.strings) return prior;
	const entries = lastingEntries(layout);
	const mean = Float64Array.from(prior.mean);
	const covariance = prior.covariance.clone();
	for (const [row, at] of entries.entries()) {
		mean[at] = learned.mean[row]!;
		for (const [column, other] of entries.entries()) {
			const widened = at === other ? sinceThenSd(layout, at, since) ** 2 : 0;
			covariance.set(at, other, learned.covariance[row]![column]! + widened);
		}
	}

	return {...prior, mean, covariance};
}

/** Judgement: what a few weeks, a new packet of the same strings or other springs change. */
function sinceThenSd(layout: Layout, at: number, {newStrings, newSprings}: SinceThen): number {
	if (at === layout.home) return newSprings ? 0.1 : 0.015;
	if (at === layout.rate) return newSprings ? 0.15 : 0.01;
	if (at === layout.arm || at === layout.springArm || at === layout.stop) return 0.005;
	return newStrings ? 0.02 : 0.005;
}
