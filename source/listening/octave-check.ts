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

/**
 * If much sounds halfway between a tone's partials, the octave below is fitted
 * too, and taken if its odd partials prove to be partials. Lost samples can
 * split the low lines of a spectrum so that the octave above looks better.
 */
export function octaveChecked(sound: PluckSound, lines: ToneLines, fitted: FittedSound): FittedSound {
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
	if (halfway < halfwayShare * on || !isListened(firstPartialHz(below))) return fitted;
	const lower = fitSound(sound, lines, {law: below, numbers: fitted.start.numbers.map(n => 2 * n)}, 'quick');
	const trusted = lower?.fit.partials.filter(p => p.trust > 0.3) ?? [];
	const odd = trusted.filter(p => p.n % 2 === 1);
	const powerOf = (partials: typeof trusted) => partials.reduce((sum, p) => sum + p.amplitude ** 2, 0);
	return lower && odd.length >= 2 && powerOf(odd) > spared * powerOf(trusted) ? lower : fitted;
}
