import {spared} from './choose-tone.ts';
import {isListened} from './coarse-pitch.ts';
import {type FittedSound, fitSound} from './fit-sound.ts';
import {firstPartialHz} from './partial-law.ts';
import type {PluckSound} from './pluck-sound.ts';
import type {ToneLines} from './tone-lines.ts';

/** Power halfway between the partials, share of theirs, from which an octave below is tried. */
const halfwayShare = 0.1;
/** Partials looked at: the strong ones. */
const highest = 6;

/** Share of the trusted power in partials 1, 3, 5 … (or 1, 2, 4, 5 …) below which they are chance, and the tone an octave (or a twelfth) higher. */
const chanceShare = 0.03;

/**
 * A first fit looked at once more for the right octave.
 *
 * If much sounds halfway between its partials, the octave below is fitted too,
 * and taken if its odd partials prove to be partials: lost samples can split
 * the low lines of a spectrum so that the octave above looks better. If hardly
 * any power lies on its odd partials, the octave above is taken: other strings
 * may have lent it some.
 */
export function octaveChecked(sound: PluckSound, lines: ToneLines, fitted: FittedSound): FittedSound {
	return lowered(sound, lines, fitted) ?? raised(sound, lines, fitted) ?? fitted;
}

type Partials = FittedSound['fit']['partials'];

function trustedPower(partials: Partials): number {
	return partials.reduce((sum, p) => sum + p.trust * p.amplitude ** 2, 0);
}

function lowered(sound: PluckSound, lines: ToneLines, fitted: FittedSound): FittedSound | undefined {
	let [on, halfway] = [0, 0];
	for (const {stretch} of fitted.stretches) {
		for (const {n, re, im} of stretch.tracks.tracks) {
			if (n > highest) continue;
			const power = re.reduce((sum, x, k) => sum + x ** 2 + im[k]! ** 2, 0);
			if (Number.isInteger(n)) on += power;
			else halfway += power;
		}
	}

	const {idealHz, stiffness} = fitted.fit.law;
	const below = {idealHz: idealHz / 2, stiffness: stiffness / 4};
	if (halfway < halfwayShare * on || !isListened(firstPartialHz(below))) return undefined;
	const lower = fitSound(sound, lines, {law: below, numbers: fitted.start.numbers.map(n => 2 * n)}, 'quick');
	const trusted = lower?.fit.partials.filter(p => p.trust > 0.3) ?? [];
	const odd = trusted.filter(p => p.n % 2 === 1);
	return lower && odd.length >= 2 && trustedPower(odd) > spared * trustedPower(trusted) ? lower : undefined;
}

function raised(sound: PluckSound, lines: ToneLines, {fit, start}: FittedSound): FittedSound | undefined {
	// Where no partial is trusted, none can say that others are missing.
	if (trustedPower(fit.partials) === 0) return undefined;
	for (const times of [2, 3]) {
		const between = fit.partials.filter(p => p.n % times !== 0);
		if (trustedPower(between) > chanceShare * trustedPower(fit.partials)) continue;
		const {idealHz, stiffness} = fit.law;
		const law = {idealHz: times * idealHz, stiffness: times ** 2 * stiffness};
		if (!isListened(firstPartialHz(law))) continue;
		const numbers = start.numbers.filter(n => n % times === 0).map(n => n / times);
		const higher = fitSound(sound, lines, {law, numbers}, 'quick');
		if (higher) return higher;
	}

	return undefined;
}
